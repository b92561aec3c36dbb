// What the open plan's file leaves out because it follows from it: paths, contours and words. The
// server makes them, once for each plan.
import { server } from '../server/client.ts';
import type * as T from '../server/types.ts';
import { notes } from './notes.svelte.ts';
import { workbench } from './workbench.svelte.ts';

class Drawings {
  /** Of the open plan; nothing until they are there. */
  view = $state.raw<T.PlanView | null>(null);

  #known = new WeakMap<T.Plan, T.PlanView>();

  constructor() {
    workbench.whenShown(({ plan }) => this.#follow(plan));
  }

  /** The server has sent these with the plan: they need not be asked for. */
  know(view: T.PlanView): void {
    this.#known.set(view.plan, view);
  }

  #follow(plan: T.Plan | null): void {
    this.view = plan ? (this.#known.get(plan) ?? null) : null;
    if (!plan || this.view) return;
    void notes.try(async () => {
      const view = await server.view(plan);
      this.#known.set(plan, view);
      if (workbench.opened.plan === plan) this.view = view;
    });
  }
}

export const drawings = new Drawings();
