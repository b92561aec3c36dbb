// The cushions' noses as unbroken outlines, jaws included, from the table file's loose pieces.
import type { TablePoint } from './view.ts';
import { distance, place } from './view.ts';

export type Rail =
  | { segment: number[][] }
  | { arc: { centre: number[]; radius: number; from_deg: number; to_deg: number } };

export type Outline = TablePoint[];

/** Ends closer than this are one point: below a line's width, above rounding in a file. */
const joined_mm = 0.5;
/** Chords of a jaw of 100 mm radius leave the arc by less than 0.1 mm. */
const chord = Math.PI / 40;

function piece(rail: Rail): Outline {
  if ('segment' in rail) return rail.segment.map(place);
  const { centre, radius, from_deg, to_deg } = rail.arc;
  const from = (from_deg * Math.PI) / 180;
  let turn = (to_deg * Math.PI) / 180 - from;
  if (turn < 0) turn += 2 * Math.PI;
  const chords = Math.max(1, Math.ceil(turn / chord));
  const middle = place(centre);
  return Array.from({ length: chords + 1 }, (_, i) => {
    const at = from + (turn * i) / chords;
    return { x: middle.x + radius * Math.cos(at), y: middle.y + radius * Math.sin(at) };
  });
}

function meet(a: TablePoint | undefined, b: TablePoint | undefined): boolean {
  return a !== undefined && b !== undefined && distance(a, b) < joined_mm;
}

/** `chain` with `next` joined to the end that it meets, or nothing. */
function join(chain: Outline, next: Outline): Outline | undefined {
  for (const base of [chain, [...chain].reverse()]) {
    for (const other of [next, [...next].reverse()]) {
      if (meet(base.at(-1), other[0])) return [...base, ...other.slice(1)];
    }
  }
  return undefined;
}

/** The cushions in order round the table, counter-clockwise, each running counter-clockwise. */
export function cushionOutlines(rails: readonly Rail[], width: number, length: number): Outline[] {
  const pieces = rails.map(piece);
  const chains: Outline[] = [];
  let chain = pieces.pop();
  while (chain) {
    let grown = true;
    while (grown) {
      grown = false;
      for (let i = 0; i < pieces.length; ++i) {
        const longer: Outline | undefined = join(chain, pieces[i] ?? []);
        if (!longer) continue;
        chain = longer;
        pieces.splice(i, 1);
        grown = true;
        break;
      }
    }
    chains.push(chain);
    chain = pieces.pop();
  }

  const centre = { x: width / 2, y: length / 2 };
  const turned = chains.map((each) => {
    const a = each[0] ?? centre;
    const b = each.at(-1) ?? centre;
    const cross = (a.x - centre.x) * (b.y - centre.y) - (a.y - centre.y) * (b.x - centre.x);
    return cross < 0 ? [...each].reverse() : each;
  });
  const angle = (each: Outline) => {
    const middle = each[Math.floor(each.length / 2)] ?? centre;
    return Math.atan2(middle.y - centre.y, middle.x - centre.x);
  };
  return turned.sort((a, b) => angle(a) - angle(b));
}
