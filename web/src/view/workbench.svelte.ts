// The one owner of what is on the page. Documents change by pure edits through `edit`, which undo and
// the library follow; everything else here is how the page looks at them.
import { begin, closeRun, redo, step, undo, type History } from '../document/history.ts';
import { Keeper } from '../document/keeper.svelte.ts';
import {
  afterMoves,
  fits,
  joined,
  newId,
  optionOf,
  turned,
  turnedView,
  withShot,
  withoutPlan,
  type Opened,
  type Question,
} from '../document/opened.ts';
import { Refusal, server, Unreachable } from '../server/client.ts';
import { newest } from '../server/newest.ts';
import type * as T from '../server/types.ts';
import { capital, tableName } from '../words/names.ts';
import { settings } from './settings.svelte.ts';

export type Place = 'table' | 'read' | 'plan' | 'explain' | 'practise';
export const places: readonly Place[] = ['table', 'read', 'plan', 'explain', 'practise'];

export interface Job {
  readonly what: string;
  readonly stage: string;
  readonly fraction: number;
  /** Nothing where the work cannot be stopped. */
  readonly stop: (() => void) | null;
}

export interface Leaving {
  readonly wanted: T.Wanted;
  readonly strikes: readonly T.LeaveStrike[];
  readonly noPot: string;
  readonly busy: boolean;
}

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

/** Key presses closer together than this are undone as one. */
const run_ms = 1500;

const known_problem = (error: unknown) => error instanceof Refusal || error instanceof Unreachable;

export class Workbench {
  readonly keeper = new Keeper();
  ready = $state(false);
  place = $state<Place>('plan');
  shot = $state(0);
  /** The Table place shows a photograph in place of the drawing. */
  capturing = $state(false);
  presets = $state.raw<T.Presets>({ tables: [], players: [] });
  history = $state.raw<History<Opened> | null>(null);
  planView = $state.raw<T.PlanView | null>(null);
  live = $state.raw<T.LiveShot | null>(null);
  potBriefs = $state.raw<T.PotBrief[]>([]);
  leaving = $state.raw<Leaving | null>(null);
  reading = $state.raw<{ layout: T.Layout; player: string; answer: T.ReadAnswer } | null>(null);
  job = $state.raw<Job | null>(null);
  ended = $state.raw<Ended | null>(null);
  compared = $state.raw<Compared | null>(null);
  doubt = $state('');
  message = $state('');
  online = $state(true);

  #pause: ReturnType<typeof setTimeout> | undefined;
  #views = new WeakMap<T.Plan, T.PlanView>();

  get opened(): Opened {
    if (!this.history) throw new Error('nothing is open yet');
    return this.history.now;
  }

  readonly table: T.Table | null = $derived.by(() => {
    const layout = this.history?.now.layout;
    if (!layout) return null;
    const preset = this.presets.tables.find((table) => table.id === layout.table);
    const table = typeof layout.table === 'string' ? preset : layout.table;
    const cue = { ...this.presets.tables[0]?.cue, ...table?.cue };
    return table ? ({ ...table, cue } as T.Table) : null;
  });

  readonly planFits: boolean = $derived(this.history ? fits(this.history.now) : false);

  /** Why the table cannot be played yet: nothing until the library has seen it. */
  readonly fault: T.Fault | null = $derived(
    this.keeper.table?.layout === this.history?.now.layout
      ? (this.keeper.table?.fault ?? null)
      : null,
  );

  /** Known to be playable, so that questions about it have answers. */
  readonly playable: boolean = $derived(
    this.keeper.table?.layout === this.history?.now.layout && !this.keeper.table?.fault,
  );

  readonly question: Question | null = $derived.by(() => {
    const question = this.history?.now.question ?? null;
    return question && question.shot === this.shot ? question : null;
  });

  // --- opening -----------------------------------------------------------------------------------

  async start(): Promise<void> {
    this.presets = await server.presets();
    const last = settings.last;
    const opened =
      (last && (await this.#load(last.layout, last.plan).catch(() => null))) ??
      (await this.#newest()) ??
      this.#bare();
    this.#show(opened);
    this.ready = true;
    this.#listen();
  }

  async #newest(): Promise<Opened | null> {
    const plans = await server.plans();
    for (const plan of plans) if (plan.layout) return this.#load(plan.layout, plan.id);
    const layouts = await server.layouts();
    return layouts[0] ? this.#load(layouts[0].id, null) : null;
  }

  async #load(layoutId: string, planId: string | null): Promise<Opened> {
    const layout = await server.layout(layoutId);
    this.keeper.know('layouts', layout.id, layout.revision, layout.document, layout.name);
    this.keeper.table = { layout: layout.document, fault: layout.fault };
    const plan = planId ? await server.plan(planId).catch(() => null) : null;
    if (plan) this.keeper.know('plans', plan.id, plan.revision, plan.document, layout.name);
    return {
      layoutId,
      name: layout.name,
      layout: layout.document,
      player: plan?.document.player ?? this.player('club'),
      planId: plan?.id ?? null,
      plan: plan?.document ?? null,
      parent: plan?.parent ?? null,
      question: null,
    };
  }

  /** For a library in which nothing is left: the program puts an example into a new one. */
  #bare(): Opened {
    return {
      layoutId: newId(),
      name: 'New table',
      layout: {
        format: 'three-ahead.layout/1',
        table: this.presets.tables[0]?.id ?? 'english-7ft',
        rules: 'international',
        to_play: 'open',
        balls: [],
      },
      player: this.player('club'),
      planId: null,
      plan: null,
      parent: null,
      question: null,
    };
  }

  player(id: string): T.Player {
    const found = this.presets.players.find((player) => player.id === id);
    const player = found ?? this.presets.players[0];
    if (!player) throw new Error('the program sent no players');
    return player;
  }

  async openLayout(id: string): Promise<void> {
    await this.try(async () => {
      const plans = await server.plans();
      const plan = plans.find((each) => each.layout === id);
      this.edit(await this.#load(id, plan?.id ?? null));
      this.#settleLooks();
    });
  }

  async reloadTheirs(): Promise<void> {
    await this.try(async () => {
      const { layoutId, planId } = this.opened;
      const opened = await this.#load(layoutId, planId);
      this.keeper.settle();
      this.edit(opened);
      this.#settleLooks();
    });
  }

  keepAsCopy(): void {
    const { name, planId } = this.opened;
    this.keeper.settle();
    this.edit({
      ...this.opened,
      name: `${name}, copy`,
      layoutId: newId(),
      planId: planId ? newId() : null,
    });
  }

  newTable(): void {
    const layout: T.Layout = {
      format: 'three-ahead.layout/1',
      table: this.opened.layout.table,
      rules: this.opened.layout.rules,
      to_play: 'open',
      balls: [],
    };
    this.edit({
      ...withoutPlan(this.opened),
      layoutId: newId(),
      name: 'New table',
      layout,
    });
    this.#settleLooks();
    this.place = 'table';
  }

  #settleLooks(): void {
    this.shot = 0;
    this.ended = null;
    this.compared = null;
    this.leaving = null;
    this.doubt = '';
  }

  #listen(): void {
    let boot: string | null = null;
    const open = () => {
      const source = new EventSource('/api/events');
      source.addEventListener('hello', (event) => {
        const hello = JSON.parse((event as MessageEvent<string>).data) as T.Hello;
        if (boot !== null && boot !== hello.boot)
          this.message = 'The program is back; all is kept.';
        boot = hello.boot;
        this.online = true;
        this.keeper.flush();
      });
      source.addEventListener('changed', (event) => {
        this.keeper.heard(JSON.parse((event as MessageEvent<string>).data) as T.Changed);
      });
      source.addEventListener('error', () => {
        this.online = false;
        if (source.readyState !== EventSource.CLOSED) return;
        setTimeout(open, 1000);
      });
    };
    open();
  }

  // --- editing -----------------------------------------------------------------------------------

  /** The one way in which a document changes. `run` joins small steps into one that is undone. */
  edit(opened: Opened, run: string | null = null): void {
    if (this.history && opened === this.history.now) return;
    this.#show(opened, run);
  }

  editLayout(layout: T.Layout, run: string | null = null): void {
    this.edit({ ...this.opened, layout }, run);
  }

  #show(opened: Opened, run: string | null = null): void {
    this.history = this.history ? step(this.history, opened, run) : begin(opened);
    clearTimeout(this.#pause);
    if (run) this.#pause = setTimeout(() => this.closeRun(), run_ms);
    this.#follow();
  }

  closeRun(): void {
    if (this.history) this.history = closeRun(this.history);
  }

  undo(): void {
    if (!this.history) return;
    this.history = undo(this.history);
    this.#follow();
  }

  redo(): void {
    if (!this.history) return;
    this.history = redo(this.history);
    this.#follow();
  }

  get canUndo(): boolean {
    return (this.history?.past.length ?? 0) > 0;
  }

  get canRedo(): boolean {
    return (this.history?.future.length ?? 0) > 0;
  }

  /** What hangs on the document: the library, the plan's drawings, the answer to the question. */
  #follow(): void {
    const now = this.opened;
    this.keeper.keep(now);
    settings.setLast(now.layoutId, now.planId);
    this.#viewOf(now.plan);
    const shots = now.plan?.shots.length ?? 0;
    if (this.shot >= shots) this.shot = Math.max(0, shots - 1);
    if (now.question) this.ask(now.question);
    else this.#liveShots.drop();
    if (!now.question) this.live = null;
  }

  #viewOf(plan: T.Plan | null): void {
    this.planView = plan ? (this.#views.get(plan) ?? null) : null;
    if (!plan || this.planView) return;
    void this.try(async () => {
      const view = turnedView(await server.view(plan));
      this.#views.set(plan, view);
      if (this.opened.plan === plan) this.planView = view;
    });
  }

  // --- asking ------------------------------------------------------------------------------------

  #liveShots = newest(
    (question: Question) => {
      const ask: T.ShotQuestion = {
        layout: question.layout,
        player: this.opened.player,
        call: question.call,
        face: !this.dragging,
      };
      if (question.touch) ask.touch = question.touch;
      return server.shot(ask);
    },
    (answer) => {
      this.live = answer;
      this.online = true;
    },
    (error) => this.#say(error),
  );

  /** While a hand moves, the face is left out of the question: it does not change under the tip. */
  dragging = $state(false);

  ask(question: Question): void {
    this.#liveShots.ask(question);
  }

  /** Shows a question while the hand still moves: nothing is recorded yet. */
  trial: Question | null = $state.raw(null);

  tryQuestion(question: Question): void {
    this.dragging = true;
    this.trial = question;
    this.ask(question);
  }

  endTrial(): void {
    const question = this.trial;
    this.dragging = false;
    this.trial = null;
    if (question) this.edit({ ...this.opened, question });
  }

  dropTrial(): void {
    this.dragging = false;
    this.trial = null;
    if (this.question) this.ask(this.question);
    else this.live = null;
  }

  setQuestion(question: Question | null, run: string | null = null): void {
    this.leaving = null;
    this.edit({ ...this.opened, question }, run);
  }

  /** The question that a change of the shown shot would start from. */
  baseQuestion(): Question | null {
    if (this.trial) return this.trial;
    if (this.question) return this.question;
    const shot = this.opened.plan?.shots[this.shot];
    const view = this.planView?.shots[this.shot];
    if (!shot || !view) return null;
    const { side, height, cue_speed } = shot.strike;
    return {
      shot: this.shot,
      layout: view.before,
      call: { ball: shot.ball, pocket: shot.pocket },
      touch: { side, height, cue_speed },
    };
  }

  #potLists = newest(
    (layout: T.Layout) => server.pots({ layout, player: this.opened.player }),
    (answer) => (this.potBriefs = answer.pots),
    () => (this.potBriefs = []),
  );

  askPots(layout: T.Layout): void {
    this.#potLists.ask(layout);
  }

  #leaves = newest(
    (question: T.LeaveQuestion) => server.leaves(question),
    (answer, question) => {
      this.leaving = {
        wanted: question.wanted as T.Wanted,
        strikes: answer.strikes,
        noPot: answer.no_pot?.detail ?? '',
        busy: false,
      };
    },
    (error) => {
      this.leaving = null;
      this.#say(error);
    },
  );

  /** `care` quick while the hand moves. */
  askLeave(wanted: T.Wanted, care: 'quick' | 'full'): void {
    const base = this.baseQuestion();
    if (!base) return;
    this.leaving = {
      wanted,
      strikes: this.leaving?.strikes ?? [],
      noPot: '',
      busy: true,
    };
    this.#leaves.ask({
      layout: base.layout,
      player: this.opened.player,
      call: base.call,
      wanted,
      care,
    });
  }

  dropLeave(): void {
    this.#leaves.drop();
    this.leaving = null;
  }

  async read(): Promise<void> {
    const { layout, player } = this.opened;
    if (this.reading?.layout === layout && this.reading.player === player.id) return;
    await this.#working('Reading the table', async () => {
      const answer = await server.read({ layout, player });
      this.reading = { layout, player: player.id, answer };
    });
  }

  async plan(): Promise<void> {
    const { layout, player } = this.opened;
    this.place = 'plan';
    this.#settleLooks();
    await this.stream(
      'Planning',
      (signal) => server.planning({ layout, player }, signal),
      (name, data) => {
        if (name === 'best') this.planView = (data as T.PlanBest).view;
        if (name === 'done') this.#planned(data as T.PlanDone);
      },
    );
  }

  #planned(done: T.PlanDone): void {
    this.doubt = done.doubt;
    if (!done.view) {
      this.message = done.detail;
      this.planView = null;
      return;
    }
    this.#takePlan(done.view, null);
  }

  #takePlan(view: T.PlanView, parent: string | null, more: Partial<Opened> = {}): void {
    // The plan's table is the one that was asked about, down to whose turn it is.
    const layout = turned(view.plan.layout);
    const colour = layout.to_play === 'black' ? 'black' : view.plan.colour;
    const plan: T.Plan = { ...view.plan, layout, colour };
    this.#views.set(plan, turnedView({ ...view, plan }));
    this.edit({
      ...this.opened,
      planId: newId(),
      parent,
      question: null,
      ...more,
      plan,
    });
  }

  /** The shot as it was tried becomes the plan's, and the rest is planned from where it leaves off. */
  async keepQuestion(): Promise<void> {
    const { plan, planId } = this.opened;
    const live = this.live;
    const question = this.question;
    const option = live && optionOf(live);
    if (!plan || !question || !option) return;
    const head = withShot(plan, question.shot, option);
    if (!live.after) return this.#keepPlan(head, planId);
    const layout = live.after;
    await this.stream(
      'Planning on from there',
      (signal) => server.planning({ layout, player: this.opened.player }, signal),
      (name, data) => {
        if (name !== 'done') return;
        const { view } = data as T.PlanDone;
        this.#keepPlan(view ? joined(head, view.plan) : head, planId);
      },
    );
  }

  #keepPlan(plan: T.Plan, planId: string | null): void {
    this.edit({ ...this.opened, plan, planId, question: null });
  }

  /** The rival becomes the plan's shot. */
  async swapRival(index: number): Promise<void> {
    const { plan } = this.opened;
    const rival = plan?.shots[index]?.runner_up;
    const view = this.planView?.shots[index];
    if (!rival || !view) return;
    const { side, height, cue_speed } = rival.strike;
    this.setQuestion({
      shot: index,
      layout: view.before,
      call: { ball: rival.ball, pocket: rival.pocket },
      touch: { side, height, cue_speed },
    });
  }

  // --- what really happened ----------------------------------------------------------------------

  beginEnded(): void {
    const view = this.planView?.shots[this.shot];
    if (!view) return;
    this.compared = null;
    this.setQuestion(null);
    this.ended = {
      shot: this.shot,
      before: view.before,
      layout: afterMoves(view.before, view.moves),
    };
  }

  async compare(): Promise<void> {
    const ended = this.ended;
    const { plan, planId } = this.opened;
    if (!ended || !plan) return;
    const actual = turned(ended.layout);
    const question = { plan, shot: ended.shot + 1, actual };
    await this.stream(
      'Working out the strike, and a plan from here',
      (signal) => server.comparing(question, signal),
      (name, data) => {
        if (name !== 'done') return;
        const done = data as T.AfterDone;
        this.compared = { shot: ended.shot, done, actual };
        const ball = plan.shots[ended.shot]?.ball ?? '';
        void this.try(() =>
          server.putResult(newId(), `${this.opened.name}, shot ${ended.shot + 1}`, {
            plan: planId,
            plan_revision: null,
            shot: ended.shot + 1,
            purpose: 'game',
            potted: !ended.layout.balls.some((each) => each.id === ball),
            actual,
            after: done.after,
            next_plan: null,
            note: '',
          }),
        );
      },
    );
  }

  /** Goes on from the real table with the plan that the comparison made. */
  goOn(): void {
    const compared = this.compared;
    if (!compared) return;
    const { view } = compared.done;
    const { name, planId } = this.opened;
    const more = {
      layoutId: newId(),
      name: `${name}, after shot ${compared.shot + 1}`,
      layout: compared.actual,
    };
    if (view) this.#takePlan(view, planId, more);
    else this.edit({ ...withoutPlan(this.opened), ...more });
    this.#settleLooks();
  }

  dropEnded(): void {
    this.ended = null;
    this.compared = null;
  }

  async practised(shot: number, potted: boolean, actual: T.Layout | null): Promise<void> {
    await this.try(() =>
      server.putResult(newId(), `${this.opened.name}, shot ${shot + 1}`, {
        plan: this.opened.planId,
        plan_revision: null,
        shot: shot + 1,
        purpose: 'practice',
        potted,
        actual,
        after: null,
        next_plan: null,
        note: '',
      }),
    );
  }

  // --- files -------------------------------------------------------------------------------------

  async importFile(file: File): Promise<void> {
    let value: unknown;
    try {
      value = JSON.parse(await file.text());
    } catch {
      this.message = `${file.name} is no JSON: give a layout, plan, player or table file.`;
      return;
    }
    await this.try(async () => {
      const imported = await server.import(value);
      const name = file.name.replace(/\.json$/, '');
      if (imported.kind === 'layouts') {
        this.edit({ ...(await this.#load(imported.id, null)) });
        this.place = 'table';
      } else if (imported.kind === 'plans') {
        const entry = await server.plan(imported.id);
        this.keeper.know('plans', entry.id, entry.revision, entry.document, name);
        this.edit({
          layoutId: newId(),
          name,
          layout: entry.document.layout,
          player: entry.document.player,
          planId: entry.id,
          plan: entry.document,
          parent: entry.parent,
          question: null,
        });
        this.place = 'plan';
      } else if (imported.kind === 'players') {
        this.edit({ ...this.opened, player: value as T.Player });
      } else {
        this.editLayout({ ...this.opened.layout, table: value as T.Table });
      }
      this.#settleLooks();
      this.message = `${capital(imported.name || tableName(name))} is in.`;
    });
  }

  // --- work that takes a while -------------------------------------------------------------------

  async #working(what: string, work: () => Promise<void>): Promise<void> {
    this.job = { what, stage: '', fraction: 0, stop: null };
    await this.try(work);
    this.job = null;
  }

  async stream(
    what: string,
    ask: (signal: AbortSignal) => AsyncGenerator<{ name: string; data: unknown }>,
    hear: (name: string, data: unknown) => void,
  ): Promise<void> {
    this.job?.stop?.();
    const abort = new AbortController();
    const job = (progress: T.Progress): Job => ({
      what,
      stage: progress.stage,
      fraction: progress.fraction,
      stop: () => abort.abort(),
    });
    this.job = job({ stage: '', fraction: 0 });
    try {
      for await (const { name, data } of ask(abort.signal)) {
        if (abort.signal.aborted) break;
        if (name === 'progress') this.job = job(data as T.Progress);
        hear(name, data);
      }
    } catch (error) {
      if (!abort.signal.aborted) this.#say(error);
    } finally {
      if (!abort.signal.aborted || this.job?.what === what) this.job = null;
      if (abort.signal.aborted) this.#viewOf(this.opened.plan);
    }
  }

  /** Runs something that may be refused, and says so. */
  async try(work: () => Promise<unknown>): Promise<void> {
    try {
      await work();
    } catch (error) {
      this.#say(error);
    }
  }

  #say(error: unknown): void {
    if (!known_problem(error)) throw error;
    if (error instanceof Unreachable) this.online = false;
    this.message = (error as Error).message;
  }
}

export const workbench = new Workbench();
