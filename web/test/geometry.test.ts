import { describe, expect, it } from 'vitest';
import { cushionOutlines, type Rail } from '../src/geometry/outline.ts';
import { momentAt, stretchesOf } from '../src/geometry/trace.ts';
import { drawn, drawnVector, undrawn, type View } from '../src/geometry/view.ts';

const upright: View = { orientation: 'upright', width: 914.4, length: 1828.8 };
const lying: View = { ...upright, orientation: 'lying' };

describe('a table laid on the page', () => {
  it.each([upright, lying])('gives back the place that was drawn ($orientation)', (view) => {
    const at = { x: 123.4, y: 1500.5 };
    const back = undrawn(view, drawn(view, at));
    expect(back.x).toBeCloseTo(at.x, 9);
    expect(back.y).toBeCloseTo(at.y, 9);
  });

  it.each([upright, lying])('is turned, never mirrored ($orientation)', (view) => {
    const right = drawnVector(view, { x: 1, y: 0 });
    const up = drawnVector(view, { x: 0, y: 1 });
    // The page's y runs down, so a frame that keeps its hand has this cross product.
    expect(right.x * up.y - right.y * up.x).toBe(-1);
  });
});

describe('cushion outlines', () => {
  it('join pieces given in any order and direction', () => {
    const rails: Rail[] = [
      {
        segment: [
          [900, 0],
          [500, 0],
        ],
      },
      { arc: { centre: [500, -50], radius: 50, from_deg: 90, to_deg: 180 } },
      {
        segment: [
          [900, 0],
          [950, -40],
        ],
      },
    ];
    const outlines = cushionOutlines(rails, 914.4, 1828.8);
    expect(outlines).toHaveLength(1);
    const ends = [outlines[0]?.[0], outlines[0]?.at(-1)];
    expect(ends.map((p) => Math.round(p?.x ?? 0)).sort((a, b) => a - b)).toEqual([450, 950]);
  });
});

describe('a path', () => {
  const path = [
    [0, 100, 100, 0, 2, 3],
    [0.1, 300, 100, 0, 1.8, 2],
    [0.2, 470, 100, 0, 1.6, 2],
    // A cushion: another direction from the same time on.
    [0.2, 470, 100, 0, 1.1, 2],
    [0.4, 300, 120, 0, 0.6, 2],
    [0.8, 250, 126, 0, 0, 0],
  ];

  it('is cut where its texture or its direction changes', () => {
    const textures = stretchesOf(path).map((stretch) => stretch.texture);
    expect(textures).toEqual(['sliding', 'rolling', 'rolling']);
  });

  it('has the ball on every row at that row’s time', () => {
    for (const row of path) {
      const moment = momentAt(path, row[0] ?? 0);
      expect(moment?.at.x).toBeCloseTo(row[1] ?? 0, 9);
      expect(moment?.at.y).toBeCloseTo(row[2] ?? 0, 9);
    }
  });

  it('holds still before its beginning and after its end', () => {
    expect(momentAt(path, -1)?.at).toEqual({ x: 100, y: 100 });
    expect(momentAt(path, 9)?.at).toEqual({ x: 250, y: 126 });
  });
});
