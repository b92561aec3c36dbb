// "What if?" about the shown shot, answered while the hand moves: a tried strike or moved balls, and
// the pots that go from there.
import type { Question } from '../document/opened.ts';
import { server } from '../server/client.ts';
import { newest } from '../server/newest.ts';
import type * as T from '../server/types.ts';
import { drawings } from './drawings.svelte.ts';
import { notes } from './notes.svelte.ts';
import { workbench } from './workbench.svelte.ts';

class Asking {
  /** The answer to the question. */
  live = $state.raw<T.LiveShot | null>(null);
  /** A question while the hand still moves: nothing is recorded yet. */
  trial = $state.raw<Question | null>(null);
  /** While a hand moves, the face is left out of the question: it does not change under the tip. */
  dragging = $state(false);
  pots = $state.raw<T.PotBrief[]>([]);

  /** The recorded question about the shown shot. */
  readonly question: Question | null = $derived.by(() => {
    const question = workbench.history?.now.question ?? null;
    return question && question.shot === workbench.shot ? question : null;
  });

  constructor() {
    workbench.whenShown(({ question }) => {
      if (question) this.#shots.ask(question);
      else this.#shots.drop();
      if (!question) this.live = null;
    });
  }

  #shots = newest(
    (question: Question) => {
      const ask: T.ShotQuestion = {
        layout: question.layout,
        player: workbench.opened.player,
        call: question.call,
        face: !this.dragging,
      };
      if (question.touch) ask.touch = question.touch;
      return server.shot(ask);
    },
    (answer) => {
      this.live = answer;
      notes.online = true;
    },
    (error) => notes.say(error),
  );

  try(question: Question): void {
    this.dragging = true;
    this.trial = question;
    this.#shots.ask(question);
  }

  endTrial(): void {
    const question = this.trial;
    this.dragging = false;
    this.trial = null;
    if (question) workbench.edit({ ...workbench.opened, question });
  }

  dropTrial(): void {
    this.dragging = false;
    this.trial = null;
    if (this.question) this.#shots.ask(this.question);
    else this.live = null;
  }

  set(question: Question | null, run: string | null = null): void {
    workbench.edit({ ...workbench.opened, question }, run);
  }

  /** The question that a change of the shown shot would start from. */
  base(): Question | null {
    if (this.trial) return this.trial;
    if (this.question) return this.question;
    const shot = workbench.opened.plan?.shots[workbench.shot];
    const view = drawings.view?.shots[workbench.shot];
    if (!shot || !view) return null;
    const { side, height, cue_speed } = shot.strike;
    return {
      shot: workbench.shot,
      layout: view.before,
      call: { ball: shot.ball, pocket: shot.pocket },
      touch: { side, height, cue_speed },
    };
  }

  /** The rival of a shot as a question: what if I played that? */
  askRival(index: number): void {
    const rival = workbench.opened.plan?.shots[index]?.runner_up;
    const view = drawings.view?.shots[index];
    if (!rival || !view) return;
    const { side, height, cue_speed } = rival.strike;
    this.set({
      shot: index,
      layout: view.before,
      call: { ball: rival.ball, pocket: rival.pocket },
      touch: { side, height, cue_speed },
    });
  }

  #potLists = newest(
    (layout: T.Layout) => server.pots({ layout, player: workbench.opened.player }),
    (answer) => (this.pots = answer.pots),
    () => (this.pots = []),
  );

  askPots(layout: T.Layout): void {
    this.#potLists.ask(layout);
  }
}

export const asking = new Asking();
