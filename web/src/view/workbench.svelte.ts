// The one owner of what is open on the page. Documents change by pure edits through `edit`; undo, the
// library and all that hangs on the document follow it.
import { begin, closeRun, redo, step, undo, type History } from '../document/history.ts';
import { Keeper } from '../document/keeper.svelte.ts';
import { fits, type Opened } from '../document/opened.ts';
import type * as T from '../server/types.ts';
import { settings } from './settings.svelte.ts';

export type Place = 'table' | 'read' | 'plan' | 'explain' | 'practise';
export const places: readonly Place[] = ['table', 'read', 'plan', 'explain', 'practise'];

/** `other`: it is another table, or another plan, than before. */
type Follower = (opened: Opened, other: boolean) => void;

/** Key presses closer together than this are undone as one. */
const run_ms = 1500;

class Workbench {
  readonly keeper = new Keeper();
  ready = $state(false);
  place = $state<Place>('plan');
  /** The shot of the plan that is looked at, from 0. */
  shot = $state(0);
  presets = $state.raw<T.Presets>({ tables: [], players: [] });
  history = $state.raw<History<Opened> | null>(null);

  #pause: ReturnType<typeof setTimeout> | undefined;
  #followers: Follower[] = [];
  #shown: Opened | null = null;

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

  player(id: string): T.Player {
    const found = this.presets.players.find((player) => player.id === id);
    const player = found ?? this.presets.players[0];
    if (!player) throw new Error('the program sent no players');
    return player;
  }

  /** The one way in which a document changes. `run` joins small steps into one that is undone. */
  edit(opened: Opened, run: string | null = null): void {
    if (this.history && opened === this.history.now) return;
    this.history = this.history ? step(this.history, opened, run) : begin(opened);
    clearTimeout(this.#pause);
    if (run) this.#pause = setTimeout(() => this.#closeRun(), run_ms);
    this.#follow();
  }

  editLayout(layout: T.Layout, run: string | null = null): void {
    this.edit({ ...this.opened, layout }, run);
  }

  #closeRun(): void {
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

  /** Calls `follower` after every edit, undo and redo. */
  whenShown(follower: Follower): void {
    this.#followers.push(follower);
  }

  #follow(): void {
    const now = this.opened;
    const other = now.layoutId !== this.#shown?.layoutId || now.planId !== this.#shown.planId;
    this.#shown = now;
    this.keeper.keep(now);
    settings.setLast(now.layoutId, now.planId);
    if (other) this.shot = 0;
    this.shot = Math.max(0, Math.min(this.shot, (now.plan?.shots.length ?? 0) - 1));
    for (const follower of this.#followers) follower(now, other);
  }
}

export const workbench = new Workbench();
