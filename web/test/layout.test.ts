import { describe, expect, it } from 'vitest';
import example from '../../examples/evening-class.json';
import {
  ballOf,
  freePlace,
  mirrored,
  radiusOf,
  settled,
  sorted,
  wholeSet,
  withBallAt,
  withoutBall,
} from '../src/document/layout.ts';
import { distance, place } from '../src/geometry/view.ts';
import type { Layout, Table } from '../src/server/types.ts';

const layout = example as Layout;
/** The parts of the 7 ft table that edits look at: its numbers are those of `ahead table`. */
const table = {
  playing_area_mm: [914.4, 1828.8],
  balls: { cue: { diameter_mm: 47.6 }, object: { diameter_mm: 50.8 } },
  markings: { baulk_line_mm: 365.76, spot_mm: [457.2, 1371.6] },
} as unknown as Table;

/** No two balls overlap and none leaves the bed: what the server asks of a layout. */
function legal(which: Layout): boolean {
  return which.balls.every((ball, i) => {
    const r = radiusOf(table, ball.id);
    const [x = 0, y = 0] = ball.at;
    const onBed = x >= r && y >= r && x <= 914.4 - r + 0.05 && y <= 1828.8 - r + 0.05;
    const apart = which.balls
      .slice(i + 1)
      .every(
        (other) =>
          distance(place(ball.at), place(other.at)) >= r + radiusOf(table, other.id) - 1e-9,
      );
    return onBed && apart;
  });
}

describe('a ball that is set down', () => {
  it('is drawn to a cushion that it nearly touches', () => {
    const { at, to } = settled(layout, table, 'red-1', { x: 30, y: 900 }, true);
    expect(at.x).toBe(25.4);
    expect(to).toEqual(['cushion']);
  });

  it('is left where the hand put it when the pull is off', () => {
    expect(settled(layout, table, 'red-1', { x: 30, y: 900 }, false).at).toEqual({ x: 30, y: 900 });
  });

  it('touches a neighbour that it nearly touches, and does not overlap it', () => {
    const { at, to } = settled(layout, table, 'red-1', { x: 720 + 55, y: 1080 }, true);
    expect(to).toEqual(['touching red-3']);
    const gap = distance(at, { x: 720, y: 1080 }) - 50.8;
    expect(gap).toBeGreaterThanOrEqual(0);
    expect(gap).toBeLessThan(0.3);
  });

  it('goes to the black spot', () => {
    const { at, to } = settled(
      withoutBall(layout, 'black'),
      table,
      'black',
      { x: 459, y: 1369 },
      true,
    );
    expect(at).toEqual({ x: 457.2, y: 1371.6 });
    expect(to).toEqual(['spot']);
  });

  it('makes a legal layout wherever it is put, 2000 times', () => {
    let seed = 7;
    const next = () => (seed = (seed * 16807) % 2147483647) / 2147483647;
    for (let i = 0; i < 2000; ++i) {
      const ids = layout.balls.map((ball) => ball.id);
      const id = ids[Math.floor(next() * ids.length)] ?? 'cue';
      const to = { x: next() * 1100 - 90, y: next() * 2000 - 90 };
      const { at } = settled(layout, table, id, to, i % 2 === 0);
      expect(legal(withBallAt(layout, id, at)), `${id} to ${to.x}, ${to.y}`).toBe(true);
    }
  });
});

describe('a layout', () => {
  it('mirrored twice is itself', () => {
    expect(mirrored(mirrored(layout, table), table)).toEqual(layout);
  });

  it('keeps its balls in the tray’s order', () => {
    const without = withoutBall(layout, 'red-1');
    expect(ballOf(without, 'red-1')).toBeUndefined();
    const back = withBallAt(without, 'red-1', { x: 150, y: 1040 });
    expect(back.balls.map((ball) => ball.id)).toEqual(sorted(layout.balls).map((ball) => ball.id));
  });

  it('has room for a whole set from the tray', () => {
    let filled = layout;
    for (const id of wholeSet('international')) {
      if (!ballOf(filled, id)) filled = withBallAt(filled, id, freePlace(filled, table, id));
    }
    expect(filled.balls).toHaveLength(16);
    expect(legal(filled)).toBe(true);
  });
});
