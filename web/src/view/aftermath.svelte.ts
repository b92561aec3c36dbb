// "It ended here": the table as it really ended, what strike was probably made, and going on.
import { afterMoves, newId, turned, withoutPlan } from '../document/opened.ts';
import { server } from '../server/client.ts';
import type * as T from '../server/types.ts';
import { asking } from './asking.svelte.ts';
import { drawings } from './drawings.svelte.ts';
import { notes } from './notes.svelte.ts';
import { planning } from './planning.svelte.ts';
import { work } from './work.svelte.ts';
import { workbench } from './workbench.svelte.ts';

export interface Ended {
  readonly shot: number;
  readonly before: T.Layout;
  readonly layout: T.Layout;
}

export interface Compared {
  readonly shot: number;
  readonly done: T.AfterDone;
  readonly actual: T.Layout;
}

class Aftermath {
  ended = $state.raw<Ended | null>(null);
  compared = $state.raw<Compared | null>(null);

  constructor() {
    workbench.whenShown((_, other) => {
      if (other) this.drop();
    });
  }

  begin(): void {
    const view = drawings.view?.shots[workbench.shot];
    if (!view) return;
    asking.set(null);
    this.compared = null;
    this.ended = {
      shot: workbench.shot,
      before: view.before,
      layout: afterMoves(view.before, view.moves),
    };
  }

  setLayout(layout: T.Layout): void {
    if (this.ended) this.ended = { ...this.ended, layout };
  }

  drop(): void {
    this.ended = null;
    this.compared = null;
  }

  async compare(): Promise<void> {
    const ended = this.ended;
    const { plan } = workbench.opened;
    if (!ended || !plan) return;
    const actual = turned(ended.layout);
    const question = { plan, shot: ended.shot + 1, actual };
    await work.stream(
      'Working out the strike, and a plan from here',
      (signal) => server.comparing(question, signal),
      (name, data) => {
        if (name !== 'done') return;
        this.compared = { shot: ended.shot, done: data as T.AfterDone, actual };
        this.#keep(this.compared, plan.shots[ended.shot]?.ball ?? '');
      },
    );
  }

  #keep({ shot, done, actual }: Compared, ball: string): void {
    const { name, planId } = workbench.opened;
    void notes.try(() =>
      server.putResult(newId(), `${name}, shot ${shot + 1}`, {
        plan: planId,
        plan_revision: null,
        shot: shot + 1,
        purpose: 'game',
        potted: !actual.balls.some((each) => each.id === ball),
        actual,
        after: done.after,
        next_plan: null,
        note: '',
      }),
    );
  }

  /** Goes on from the real table with the plan that the comparison made. */
  goOn(): void {
    if (!this.compared) return;
    const { shot, actual, done } = this.compared;
    const { name, planId } = workbench.opened;
    const more = { layoutId: newId(), name: `${name}, after shot ${shot + 1}`, layout: actual };
    if (done.view) planning.take(done.view, planId, more);
    else workbench.edit({ ...withoutPlan(workbench.opened), ...more });
  }
}

export const aftermath = new Aftermath();
