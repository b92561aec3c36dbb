// A hand on a mark of an SVG drawing: pointer positions in the drawing's own units. The grip keeps
// its distance from the mark's centre, so that nothing jumps when it is taken.
import type { Action } from 'svelte/action';
import type { DrawPoint } from '../geometry/view.ts';

export interface Grip {
  /** The mark's centre when the hand takes it; nothing to let go at once. */
  take(at: DrawPoint): DrawPoint | null;
  move(at: DrawPoint, event: PointerEvent): void;
  drop(at: DrawPoint, event: PointerEvent): void;
  /** The hand was taken away by the system: as before. */
  cancel?(): void;
}

export function drawingPoint(svg: SVGSVGElement, event: { clientX: number; clientY: number }) {
  const matrix = svg.getScreenCTM();
  if (!matrix) return { x: 0, y: 0 };
  const p = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
  return { x: p.x, y: p.y };
}

/** Less than this is a press, not a drag, in pixels of the screen. */
const still_px = 3;

export const grip: Action<SVGGraphicsElement, Grip> = (node, first) => {
  let hand = first;
  let off: DrawPoint | null = null;
  let from = { x: 0, y: 0 };
  let moved = false;

  const svg = () => node.ownerSVGElement ?? (node as unknown as SVGSVGElement);
  const place = (event: PointerEvent): DrawPoint => {
    const at = drawingPoint(svg(), event);
    return { x: at.x + (off?.x ?? 0), y: at.y + (off?.y ?? 0) };
  };

  function down(event: PointerEvent) {
    if (event.button !== 0) return;
    off = null;
    const at = place(event);
    const centre = hand.take(at);
    if (!centre) return;
    off = { x: centre.x - at.x, y: centre.y - at.y };
    from = { x: event.clientX, y: event.clientY };
    moved = false;
    node.setPointerCapture(event.pointerId);
    event.stopPropagation();
  }
  function move(event: PointerEvent) {
    if (!off) return;
    moved ||= Math.hypot(event.clientX - from.x, event.clientY - from.y) > still_px;
    if (moved) hand.move(place(event), event);
  }
  function up(event: PointerEvent) {
    if (!off) return;
    if (moved) hand.drop(place(event), event);
    else hand.cancel?.();
    off = null;
  }
  function cancel() {
    if (off) hand.cancel?.();
    off = null;
  }

  node.addEventListener('pointerdown', down);
  node.addEventListener('pointermove', move);
  node.addEventListener('pointerup', up);
  node.addEventListener('pointercancel', cancel);
  return {
    update: (next) => (hand = next),
    destroy() {
      node.removeEventListener('pointerdown', down);
      node.removeEventListener('pointermove', move);
      node.removeEventListener('pointerup', up);
      node.removeEventListener('pointercancel', cancel);
    },
  };
};

/** Arrow keys as steps on the drawing, or nothing for another key. */
export function arrow(event: KeyboardEvent): DrawPoint | null {
  const far = event.shiftKey ? 10 : 1;
  const steps: Record<string, DrawPoint> = {
    ArrowLeft: { x: -far, y: 0 },
    ArrowRight: { x: far, y: 0 },
    ArrowUp: { x: 0, y: -far },
    ArrowDown: { x: 0, y: far },
  };
  return event.ctrlKey || event.metaKey || event.altKey ? null : (steps[event.key] ?? null);
}
