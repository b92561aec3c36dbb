// A wanted leave: the circle or the region where the cue ball should stop, and the strikes that leave
// it there.
import { pair, type TablePoint } from '../geometry/view.ts';
import { server } from '../server/client.ts';
import { newest } from '../server/newest.ts';
import type * as T from '../server/types.ts';
import { asking } from './asking.svelte.ts';
import { notes } from './notes.svelte.ts';
import { workbench } from './workbench.svelte.ts';

interface Found {
  readonly wanted: T.Wanted;
  readonly strikes: readonly T.LeaveStrike[];
  readonly noPot: string;
  readonly busy: boolean;
}

export const circle_radius_mm = 90;
/** Corners of a drawn region closer than this are left out, mm. */
const least_apart_mm = 12;
const most_corners = 200;

class Leaving {
  /** Where the hand has put the circle; nothing while the cue ball may stop where it will. */
  at = $state.raw<TablePoint | null>(null);
  outline = $state.raw<readonly TablePoint[]>([]);
  /** A region is being drawn, or about to be. */
  drawing = $state(false);
  found = $state.raw<Found | null>(null);

  constructor() {
    workbench.whenShown((_, other) => {
      if (other) this.drop();
    });
  }

  #strikes = newest(
    (question: T.LeaveQuestion) => server.leaves(question),
    (answer, question) => {
      this.found = {
        wanted: question.wanted as T.Wanted,
        strikes: answer.strikes,
        noPot: answer.no_pot?.detail ?? '',
        busy: false,
      };
    },
    (error) => {
      this.found = null;
      notes.say(error);
    },
  );

  /** `care` quick while the hand moves. */
  wantCircle(at: TablePoint, care: 'quick' | 'full'): void {
    this.at = at;
    this.outline = [];
    this.#ask({ circle: { at: pair(at), radius_mm: circle_radius_mm } }, care);
  }

  beginRegion(): void {
    this.drop();
    this.drawing = true;
  }

  extendRegion(to: TablePoint): void {
    const last = this.outline.at(-1);
    if (last && Math.hypot(to.x - last.x, to.y - last.y) < least_apart_mm) return;
    if (this.outline.length < most_corners) this.outline = [...this.outline, to];
  }

  endRegion(): void {
    this.drawing = false;
    if (this.outline.length < 3) this.outline = [];
    else this.#ask({ region: { outline: this.outline.map(pair) } }, 'full');
  }

  drop(): void {
    this.#strikes.drop();
    this.at = null;
    this.outline = [];
    this.drawing = false;
    this.found = null;
  }

  #ask(wanted: T.Wanted, care: 'quick' | 'full'): void {
    const base = asking.base();
    if (!base) return;
    this.found = { wanted, strikes: this.found?.strikes ?? [], noPot: '', busy: true };
    const { layout, call } = base;
    this.#strikes.ask({ layout, player: workbench.opened.player, call, wanted, care });
  }
}

export const leaving = new Leaving();
