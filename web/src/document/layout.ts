// Edits of a layout: values in, values out.
import type { TablePoint } from '../geometry/view.ts';
import { distance, place } from '../geometry/view.ts';
import type { Ball, Layout, Table } from '../server/types.ts';

/** Files carry tenths of a millimetre: nobody sets a ball finer. */
export function rounded(value: number): number {
  return Math.round(value * 10) / 10;
}

export function ballOf(layout: Layout, id: string): Ball | undefined {
  return layout.balls.find((ball) => ball.id === id);
}

export function radiusOf(table: Table, id: string): number {
  return (id === 'cue' ? table.balls.cue : table.balls.object).diameter_mm / 2;
}

export function withBallAt(layout: Layout, id: string, at: TablePoint): Layout {
  const moved: Ball = { id, at: [rounded(at.x), rounded(at.y)] };
  return ballOf(layout, id)
    ? { ...layout, balls: layout.balls.map((ball) => (ball.id === id ? moved : ball)) }
    : { ...layout, balls: sorted([...layout.balls, moved]) };
}

export function withoutBall(layout: Layout, id: string): Layout {
  return { ...layout, balls: layout.balls.filter((ball) => ball.id !== id) };
}

/** Left becomes right, as in a mirror that stands along the table. */
export function mirrored(layout: Layout, table: Table): Layout {
  const width = table.playing_area_mm[0] ?? 0;
  return {
    ...layout,
    balls: layout.balls.map((ball) => ({
      ...ball,
      at: [rounded(width - (ball.at[0] ?? 0)), ball.at[1] ?? 0],
    })),
  };
}

/** The whole set that a layout of these rules may hold, in the tray's order. */
export function wholeSet(rules: Layout['rules']): string[] {
  const numbered = (name: string, count: number) =>
    Array.from({ length: count }, (_, i) => `${name}-${i + 1}`);
  if (rules === 'snooker') {
    return ['cue', ...numbered('red', 15), 'yellow', 'green', 'brown', 'blue', 'pink', 'black'];
  }
  if (rules === 'american-8ball') {
    return ['cue', ...numbered('solid', 7), ...numbered('stripe', 7), 'black'];
  }
  return ['cue', ...numbered('red', 7), ...numbered('yellow', 7), 'black'];
}

const order = [
  'cue',
  'red',
  'solid',
  'yellow',
  'stripe',
  'green',
  'brown',
  'blue',
  'pink',
  'black',
];

export function colourOf(id: string): string {
  return id.split('-')[0] ?? id;
}

export function sorted(balls: readonly Ball[]): Ball[] {
  const key = (ball: Ball) =>
    100 * order.indexOf(colourOf(ball.id)) + Number(ball.id.split('-')[1] ?? 0);
  return [...balls].sort((a, b) => key(a) - key(b));
}

export interface Snapped {
  readonly at: TablePoint;
  /** What it was drawn to, for a word beside the ball: "touching red-3", "cushion", "spot". */
  readonly to: readonly string[];
}

/** From how near a place draws a ball, mm. */
const pull_mm = 7;
/** Touching balls in a file are this far apart: rounding must not make them overlap. */
const hair_mm = 0.1;

/**
 * Where a ball dropped at `at` comes to lie: on the bed, overlapping nothing, and drawn to a
 * cushion, a spot, the baulk line or a neighbour when it is nearly there. `pulls` false leaves out
 * the drawing.
 */
export function settled(
  layout: Layout,
  table: Table,
  id: string,
  at: TablePoint,
  pulls: boolean,
): Snapped {
  const radius = radiusOf(table, id);
  const [width = 0, length = 0] = table.playing_area_mm;
  const to = new Set<string>();
  let { x, y } = {
    x: Math.min(width - radius, Math.max(radius, at.x)),
    y: Math.min(length - radius, Math.max(radius, at.y)),
  };

  if (pulls) {
    for (const edge of [radius, width - radius]) {
      if (Math.abs(x - edge) < pull_mm) [x] = [edge, to.add('cushion')];
    }
    for (const edge of [radius, length - radius]) {
      if (Math.abs(y - edge) < pull_mm) [y] = [edge, to.add('cushion')];
    }
    const spot = place(table.markings.spot_mm);
    if (distance({ x, y }, spot) < pull_mm) {
      [x, y] = [spot.x, spot.y];
      to.add('spot');
    } else if (id === 'cue' && Math.abs(y - table.markings.baulk_line_mm) < pull_mm) {
      y = table.markings.baulk_line_mm;
      to.add('baulk line');
    }
  }

  // Twice over: pushed off one ball it may come to lie on another.
  for (let round = 0; round < 4; ++round) {
    for (const other of layout.balls) {
      if (other.id === id) continue;
      const from = place(other.at);
      const apart = radius + radiusOf(table, other.id) + hair_mm;
      const gap = distance({ x, y }, from) - apart;
      if (gap >= (pulls && round === 0 ? pull_mm : 0)) continue;
      const away = gap + apart > 1e-6 ? 1 / (gap + apart) : 0;
      const unit = away ? { x: (x - from.x) * away, y: (y - from.y) * away } : { x: 1, y: 0 };
      // Rounded outwards, so that the file's tenths keep them apart.
      x = outwards(from.x + apart * unit.x, unit.x);
      y = outwards(from.y + apart * unit.y, unit.y);
      to.add(`touching ${other.id}`);
    }
    x = Math.min(width - radius, Math.max(radius, x));
    y = Math.min(length - radius, Math.max(radius, y));
  }
  const settledAt = { x: rounded(x), y: rounded(y) };
  return clear(layout, table, id, settledAt)
    ? { at: settledAt, to: [...to] }
    : nearestFree(layout, table, id, settledAt);
}

/** Between cushions and neighbours that leave no room: the nearest place that does. */
function nearestFree(layout: Layout, table: Table, id: string, from: TablePoint): Snapped {
  for (let far = 1; far < 400; far += 2) {
    for (let i = 0; i < 48; ++i) {
      const angle = (i * Math.PI) / 24;
      const at = {
        x: rounded(from.x + far * Math.cos(angle)),
        y: rounded(from.y + far * Math.sin(angle)),
      };
      if (clear(layout, table, id, at)) return { at, to: [] };
    }
  }
  return { at: from, to: [] };
}

function outwards(value: number, direction: number): number {
  return direction >= 0 ? Math.ceil(value * 10 - 1e-6) / 10 : Math.floor(value * 10 + 1e-6) / 10;
}

/** A free place for a ball that comes from the tray without a hand: spirals out from the middle. */
export function freePlace(layout: Layout, table: Table, id: string): TablePoint {
  const [width = 0, length = 0] = table.playing_area_mm;
  for (let i = 0; i < 400; ++i) {
    const angle = 2.4 * i;
    const far = 20 * Math.sqrt(i) * 1.6;
    const at = { x: width / 2 + far * Math.cos(angle), y: length / 2 + far * Math.sin(angle) };
    if (clear(layout, table, id, at)) return at;
  }
  return { x: width / 2, y: length / 2 };
}

/** On the bed, and overlapping no other ball. */
function clear(layout: Layout, table: Table, id: string, at: TablePoint): boolean {
  const [width = 0, length = 0] = table.playing_area_mm;
  const radius = radiusOf(table, id);
  const onBed =
    at.x >= radius - 0.05 &&
    at.y >= radius - 0.05 &&
    at.x <= width - radius + 0.05 &&
    at.y <= length - radius + 0.05;
  return (
    onBed &&
    layout.balls.every(
      (ball) => ball.id === id || distance(place(ball.at), at) >= radius + radiusOf(table, ball.id),
    )
  );
}
