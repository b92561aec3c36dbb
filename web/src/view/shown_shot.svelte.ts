// The shot that the Plan place shows: as it is planned, or as it would be with what is asked.
import { sameLayout, type Question } from '../document/opened.ts';
import type * as T from '../server/types.ts';
import { asking } from './asking.svelte.ts';
import { drawings } from './drawings.svelte.ts';
import { workbench } from './workbench.svelte.ts';

class ShownShot {
  readonly planned: T.PlannedShot | null = $derived(
    workbench.history?.now.plan?.shots[workbench.shot] ?? null,
  );
  readonly view: T.ShotView | null = $derived(drawings.view?.shots[workbench.shot] ?? null);
  readonly question: Question | null = $derived(asking.trial ?? asking.question);
  readonly live: T.LiveShot | null = $derived(this.question ? asking.live : null);
  readonly layout: T.Layout | null = $derived(
    this.question?.layout ?? this.view?.before ?? workbench.history?.now.layout ?? null,
  );
  readonly moves: T.Moves | null = $derived(
    this.live ? this.live.moves : (this.view?.moves ?? null),
  );
  readonly contours: T.Contours | null = $derived(
    this.live ? this.live.contours : (this.view?.contours ?? null),
  );
  readonly call: T.Call | null = $derived.by(() => {
    if (this.question) return this.question.call;
    return this.planned ? { ball: this.planned.ball, pocket: this.planned.pocket } : null;
  });
  /** Balls were moved to ask. */
  readonly changed: boolean = $derived(
    Boolean(this.question && this.view && !sameLayout(this.question.layout, this.view.before)),
  );
}

export const shown = new ShownShot();
