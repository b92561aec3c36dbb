// Places on the table and on the drawing.
//
// The table's frame is that of every file: millimetres from the bottom-left corner of the playing
// area, seen from above with the baulk end at the bottom, x to the right, y up the table. A drawing
// has its own frame, y downwards, one unit a millimetre. A table drawn lying has been turned
// clockwise by a quarter, never mirrored: left stays left for a player who looks up the table.

declare const frame: unique symbol;

/** A place on the table, mm. */
export type TablePoint = { readonly x: number; readonly y: number; readonly [frame]?: 'table' };
/** A place on a drawing. */
export type DrawPoint = { readonly x: number; readonly y: number; readonly [frame]?: 'drawing' };

export type Orientation = 'upright' | 'lying';

/** How a table of `width` by `length` mm is laid on the drawing. */
export interface View {
  readonly orientation: Orientation;
  readonly width: number;
  readonly length: number;
}

export function place(at: readonly number[]): TablePoint {
  return { x: at[0] ?? 0, y: at[1] ?? 0 };
}

export function pair(at: TablePoint): [number, number] {
  return [at.x, at.y];
}

export function drawn(view: View, at: TablePoint): DrawPoint {
  return view.orientation === 'upright' ? { x: at.x, y: view.length - at.y } : { x: at.y, y: at.x };
}

export function undrawn(view: View, at: DrawPoint): TablePoint {
  return view.orientation === 'upright' ? { x: at.x, y: view.length - at.y } : { x: at.y, y: at.x };
}

/** A direction or a difference of places. */
export function drawnVector(view: View, v: TablePoint): DrawPoint {
  return view.orientation === 'upright' ? { x: v.x, y: -v.y } : { x: v.y, y: v.x };
}

export function undrawnVector(view: View, v: DrawPoint): TablePoint {
  return view.orientation === 'upright' ? { x: v.x, y: -v.y } : { x: v.y, y: v.x };
}

/** Room of the bed on the drawing. */
export function bedSize(view: View): { width: number; height: number } {
  return view.orientation === 'upright'
    ? { width: view.width, height: view.length }
    : { width: view.length, height: view.width };
}

export function distance(a: { x: number; y: number }, b: { x: number; y: number }): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

export function polyline(points: readonly DrawPoint[], closed = false): string {
  if (points.length === 0) return '';
  const steps = points.map((p) => `${short(p.x)},${short(p.y)}`);
  return `M${steps.join('L')}${closed ? 'Z' : ''}`;
}

/** A number for a drawing: a tenth of a millimetre is finer than any line. */
export function short(value: number): string {
  return String(Math.round(value * 10) / 10);
}
