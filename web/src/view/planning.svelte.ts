// Planning: the best plan so far shows while the program works on, and a stop keeps it.
import { newId, withRest, type Opened } from '../document/opened.ts';
import { server } from '../server/client.ts';
import type * as T from '../server/types.ts';
import { asking } from './asking.svelte.ts';
import { drawings } from './drawings.svelte.ts';
import { notes } from './notes.svelte.ts';
import { work } from './work.svelte.ts';
import { workbench } from './workbench.svelte.ts';

type Keep = (view: T.PlanView) => void;

class Planning {
  /** The best plan so far, while planning goes on. */
  soFar = $state.raw<T.PlanView | null>(null);
  /** Whether the first choice hangs on a few millimetres. */
  doubt = $state('');

  /** The table that is being planned. */
  #planned: string | null = null;

  constructor() {
    workbench.whenShown(({ layoutId }, other) => {
      if (other) this.doubt = '';
      // Another table was opened: a plan for the old one would be laid over it.
      if (this.#planned !== null && this.#planned !== layoutId) work.job?.stop?.();
    });
  }

  async plan(): Promise<void> {
    const { layout, player } = workbench.opened;
    workbench.place = 'plan';
    workbench.shot = 0;
    await this.#run(
      'Planning',
      { layout, player },
      (view) => view,
      (view) => this.take(view, null),
    );
  }

  /** The shot as it was tried becomes the plan's, and the planner goes on from it. */
  async keepQuestion(): Promise<void> {
    const { plan, planId, player } = workbench.opened;
    const question = asking.question;
    const { call, strike } = asking.live ?? {};
    const before = drawings.view;
    if (!plan || !before || !question || !call || !strike) return;
    const { shot, layout } = question;
    await this.#run(
      'Planning on with your shot',
      { layout, player, first: { call, strike } },
      (rest) => withRest(before, shot, rest),
      (view) => {
        // Of a plan put together here the server says the words anew.
        if (shot === 0) drawings.know(view);
        workbench.edit({ ...workbench.opened, plan: view.plan, planId, question: null });
      },
    );
  }

  /** Each plan on the way is shown `as` a whole; the last, or the best when stopped, is kept. */
  async #run(
    what: string,
    question: T.PlanQuestion,
    as: (view: T.PlanView) => T.PlanView,
    keep: Keep,
  ): Promise<void> {
    const { layoutId } = workbench.opened;
    this.soFar = null;
    this.#planned = layoutId;
    let best: T.PlanView | null = null;
    let done: T.PlanDone | null = null;
    const stopped = await work.stream(
      what,
      (signal) => server.planning(question, signal),
      (name, data) => {
        if (name === 'done') done = data as T.PlanDone;
        if (name !== 'best') return;
        best = as((data as T.PlanBest).view);
        this.soFar = best;
      },
    );
    // Other planning may have begun: what shows is its own.
    if (this.soFar === best) this.soFar = this.#planned = null;
    if (workbench.opened.layoutId === layoutId) this.#settle(stopped ? best : null, done, as, keep);
  }

  #settle(
    best: T.PlanView | null,
    done: T.PlanDone | null,
    as: (view: T.PlanView) => T.PlanView,
    keep: Keep,
  ): void {
    if (best) return keep({ ...best, plan: { ...best.plan, partial: true } });
    if (!done) return;
    if (!done.view) return void (notes.message = done.detail);
    keep(as(done.view));
    this.doubt = done.doubt;
  }

  /** A plan of its own, made from `parent` or from the table. */
  take(view: T.PlanView, parent: string | null, more: Partial<Opened> = {}): void {
    drawings.know(view);
    const plan = view.plan;
    const planId = newId();
    workbench.edit({ ...workbench.opened, planId, parent, question: null, ...more, plan });
  }
}

export const planning = new Planning();
