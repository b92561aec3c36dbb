// The hand that sets the table: a drag is provisional until it lets go, a key press is an edit.
import { freePlace, settled, withBallAt, withoutBall } from '../document/layout.ts';
import { undrawn, type TablePoint, type View } from '../geometry/view.ts';
import type { Layout, Table } from '../server/types.ts';
import { ballName } from '../words/names.ts';
import { drawingPoint } from './drag.ts';
import { workbench } from './workbench.svelte.ts';

/** A ball of the tray may be dropped so far outside the cushions and is still put on the table, mm. */
const margin_mm = 60;

class Hand {
  /** The table while a ball is dragged. */
  trial = $state.raw<Layout | null>(null);
  chosen = $state<string | null>(null);
  /** What the dragged ball was drawn to. */
  note = $state('');

  readonly layout: Layout | null = $derived(this.trial ?? workbench.history?.now.layout ?? null);

  move(table: Table, id: string, to: TablePoint, how: 'hand' | 'key', event: Event): void {
    const { layout } = workbench.opened;
    const pulls = how === 'hand' && !(event as PointerEvent).altKey;
    const snapped = settled(layout, table, id, to, pulls);
    this.note = snapped.to
      .map((each) => each.replace(/touching (.*)/, (_, b: string) => `touching ${ballName(b)}`))
      .join(', ');
    const next = withBallAt(layout, id, snapped.at);
    this.chosen = id;
    if (how === 'hand') this.trial = next;
    else workbench.editLayout(next, `key ${id}`);
  }

  drop(): void {
    if (this.trial) workbench.editLayout(this.trial);
    this.trial = null;
  }

  cancel(): void {
    this.trial = null;
  }

  remove(id: string): void {
    workbench.editLayout(withoutBall(workbench.opened.layout, id));
  }

  /** Where there is room. */
  put(table: Table, id: string): void {
    const { layout } = workbench.opened;
    workbench.editLayout(withBallAt(layout, id, freePlace(layout, table, id)));
    this.chosen = id;
  }

  /** A ball from the tray, over the drawing or not yet. */
  carry(table: Table, id: string, view: View, svg: SVGSVGElement, event: PointerEvent): void {
    const at = undrawn(view, drawingPoint(svg, event));
    const [width = 0, long = 0] = table.playing_area_mm;
    const over =
      at.x > -margin_mm && at.y > -margin_mm && at.x < width + margin_mm && at.y < long + margin_mm;
    if (over) this.move(table, id, at, 'hand', event);
    else this.trial = null;
  }
}

export const hand = new Hand();
