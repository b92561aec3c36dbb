// The photograph that the table was taken from, while the page is open: what was found in it, and
// what is drawn on it. It is not part of the document.
import { Refusal, server, Unreachable } from '../server/client.ts';
import type * as T from '../server/types.ts';

export interface Pixel {
  readonly x: number;
  readonly y: number;
}

/** Wider ones tell the program nothing more. */
const widest_px = 1600;

/** In the order in which the program wants them. */
export const cornerNames = ['bottom-left', 'bottom-right', 'top-right', 'top-left'] as const;

function base64(bytes: Uint8Array): string {
  let text = '';
  for (let i = 0; i < bytes.length; i += 32_768) {
    text += String.fromCharCode(...bytes.subarray(i, i + 32_768));
  }
  return btoa(text);
}

async function blobOf(canvas: HTMLCanvasElement, type: string): Promise<Blob> {
  const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, type, 0.92));
  if (!blob) throw new Error('the browser could not write the picture');
  return blob;
}

class Photograph {
  /** The Table place shows it in place of the drawing. */
  shown = $state(false);
  url = $state('');
  width = $state(0);
  height = $state(0);
  corners = $state.raw<Pixel[]>([]);
  found = $state.raw<T.Capture | null>(null);
  /** Ids that a person still has to look at. */
  doubtful = $state.raw<string[]>([]);
  busy = $state(false);
  fault = $state('');
  drawing = $state('');
  cut = $state('');
  #bytes = '';

  /** Shows the file and looks for the table in it. */
  async open(file: Blob, table: T.Layout['table']): Promise<void> {
    this.fault = '';
    this.found = null;
    this.doubtful = [];
    this.drawing = this.cut = '';
    let bitmap: ImageBitmap;
    try {
      // Turned upright as the camera says.
      bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' });
    } catch {
      this.fault = 'That is no picture that this browser reads. Give a JPEG, PNG or WebP.';
      return;
    }
    const scale = Math.min(1, widest_px / Math.max(bitmap.width, bitmap.height));
    const canvas = document.createElement('canvas');
    canvas.width = Math.round(bitmap.width * scale);
    canvas.height = Math.round(bitmap.height * scale);
    canvas.getContext('2d')?.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
    bitmap.close();
    const blob = await blobOf(canvas, 'image/jpeg');
    this.#bytes = base64(new Uint8Array(await blob.arrayBuffer()));
    if (this.url) URL.revokeObjectURL(this.url);
    this.url = URL.createObjectURL(blob);
    this.width = canvas.width;
    this.height = canvas.height;
    // A guess to drag from, should the table not be found.
    const { width, height } = canvas;
    this.corners = [
      { x: 0.15 * width, y: 0.85 * height },
      { x: 0.85 * width, y: 0.85 * height },
      { x: 0.65 * width, y: 0.2 * height },
      { x: 0.35 * width, y: 0.2 * height },
    ];
    await this.look(table, false);
  }

  /** Looks again: with the corners as they are marked, or for the table as well. */
  async look(table: T.Layout['table'], marked: boolean): Promise<void> {
    this.busy = true;
    this.fault = '';
    try {
      const question: Parameters<typeof server.capture>[0] = { photograph: this.#bytes, table };
      if (marked) question.corners = this.corners.map(({ x, y }) => [x, y]);
      const found = await server.capture(question);
      this.found = found;
      this.doubtful = found.doubtful;
      this.corners = found.corners.map(([x = 0, y = 0]) => ({ x, y }));
      this.drawing = this.cut = '';
    } catch (error) {
      if (!(error instanceof Refusal || error instanceof Unreachable)) throw error;
      this.fault = error.message;
    } finally {
      this.busy = false;
    }
  }

  moveCorner(index: number, to: Pixel): void {
    const inside = {
      x: Math.min(Math.max(to.x, 0), this.width - 1),
      y: Math.min(Math.max(to.y, 0), this.height - 1),
    };
    this.corners = this.corners.map((corner, i) => (i === index ? inside : corner));
  }

  confirm(id: string): void {
    this.doubtful = this.doubtful.filter((each) => each !== id);
  }

  /** It is another ball, or none. Ids stay one each. */
  rename(id: string, to: string | null): void {
    if (!this.found) return;
    const swap = (each: string) => (each === id ? to : each === to ? id : each);
    const renamed = <Ball extends { id: string }>(balls: Ball[]): Ball[] =>
      balls.flatMap((ball) => {
        const name = swap(ball.id);
        return name === null ? [] : [{ ...ball, id: name }];
      });
    const { layout } = this.found;
    this.found = {
      ...this.found,
      balls: renamed(this.found.balls),
      layout: { ...layout, balls: renamed(layout.balls) },
    };
    this.confirm(id);
  }

  async draw(plan: T.Plan, shot: number): Promise<void> {
    if (!this.found) return;
    this.busy = true;
    this.fault = '';
    try {
      const answer = await server.drawing({ camera: this.found.camera, plan, shot });
      this.drawing = `data:image/png;base64,${answer.png}`;
      this.cut = answer.cut;
    } catch (error) {
      if (!(error instanceof Refusal || error instanceof Unreachable)) throw error;
      this.fault = error.message;
    } finally {
      this.busy = false;
    }
  }

  /** The photograph with what is drawn on it, as a file. */
  async picture(): Promise<Blob> {
    const canvas = document.createElement('canvas');
    canvas.width = this.width;
    canvas.height = this.height;
    const pen = canvas.getContext('2d');
    for (const source of [this.url, this.drawing]) {
      if (!source) continue;
      const image = new Image();
      image.src = source;
      await image.decode();
      pen?.drawImage(image, 0, 0);
    }
    return blobOf(canvas, 'image/png');
  }
}

export const photograph = new Photograph();
