// A ball's path as the server sends it, for drawing and for the motion view. Nothing here moves a
// ball: the rows are the server's, and straight lines between them are right to the pixel.
import type { TablePoint } from './view.ts';

/** [t s, x mm, y mm, z mm over its place on the bed, speed m/s, phase] */
export type Row = readonly number[];

export interface Moment {
  readonly t: number;
  readonly at: TablePoint;
  readonly z: number;
  readonly speed: number;
}

export type Texture = 'sliding' | 'rolling' | 'flying';

export interface Stretch {
  readonly texture: Texture;
  readonly moments: readonly Moment[];
}

const textures: Record<number, Texture> = { 2: 'rolling', 3: 'sliding', 4: 'flying' };

const get = (row: Row | undefined, i: number) => row?.[i] ?? 0;

function momentOf(row: Row): Moment {
  return {
    t: get(row, 0),
    at: { x: get(row, 1), y: get(row, 2) },
    z: get(row, 3),
    speed: get(row, 4),
  };
}

/**
 * The stretches in which the ball moves, each of one texture. A row before and a row after an event
 * have the same time: a stretch ends there, so that no ribbon is bent round a cushion.
 */
export function stretchesOf(path: readonly Row[]): Stretch[] {
  const stretches: { texture: Texture; moments: Moment[] }[] = [];
  for (let i = 0; i + 1 < path.length; ++i) {
    const texture = textures[get(path[i], 5)];
    const [from, to] = [momentOf(path[i] ?? []), momentOf(path[i + 1] ?? [])];
    if (!texture || to.t <= from.t) continue;
    const last = stretches.at(-1);
    const end = last?.moments.at(-1);
    const turned = end && end.speed - from.speed > 0.02 * end.speed;
    if (last?.texture === texture && end?.t === from.t && !turned && !bends(last.moments, to)) {
      last.moments.push(to);
    } else {
      stretches.push({ texture, moments: [from, to] });
    }
  }
  return stretches;
}

function bends(moments: readonly Moment[], to: Moment): boolean {
  const [a, b] = [moments.at(-2)?.at, moments.at(-1)?.at];
  if (!a || !b) return false;
  const [ux, uy, vx, vy] = [b.x - a.x, b.y - a.y, to.at.x - b.x, to.at.y - b.y];
  const product = Math.hypot(ux, uy) * Math.hypot(vx, vy);
  return product > 1e-9 && (ux * vx + uy * vy) / product < 0.94;
}

/** The ball at time t. */
export function momentAt(path: readonly Row[], t: number): Moment | undefined {
  const first = path[0];
  const final = path.at(-1);
  if (!first || !final) return undefined;
  if (t >= get(final, 0)) return momentOf(final);
  if (t <= get(first, 0)) return momentOf(first);
  let low = 0;
  let high = path.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (get(path[middle], 0) <= t) low = middle;
    else high = middle;
  }
  const [a, b] = [path[low] ?? first, path[high] ?? final];
  const h = get(b, 0) - get(a, 0);
  const s = h > 0 ? (t - get(a, 0)) / h : 1;
  const mix = (i: number) => (1 - s) * get(a, i) + s * get(b, i);
  return { t, at: { x: mix(1), y: mix(2) }, z: mix(3), speed: mix(4) };
}

/** Speed over time, for the curve under the motion view: [t s, m/s]. */
export function speedCurve(path: readonly Row[]): [number, number][] {
  return path.map((row) => [get(row, 0), get(row, 4)]);
}
