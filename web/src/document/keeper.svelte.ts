// Keeps the open document in the server's library: every edit within a fraction of a second, again
// and again while the server is away, and never over somebody else's change.
import { Refusal, server, Unreachable } from '../server/client.ts';
import type { Changed, Fault, Layout, LayoutEntry, Plan } from '../server/types.ts';
import type { Opened } from './opened.ts';

type Kind = 'layouts' | 'plans';

interface Kept {
  readonly revision: number | null;
  readonly document: Layout | Plan | null;
  readonly name: string;
}

export type Keeping = 'kept' | 'keeping' | 'away' | 'refused';

export interface Conflict {
  readonly kind: Kind;
  readonly id: string;
}

const pause_ms = 200;
const again_ms = 700;

export class Keeper {
  state = $state<Keeping>('kept');
  conflict = $state.raw<Conflict | null>(null);
  refusal = $state<string>('');
  /** The table that the library holds, and why it cannot be played yet. */
  table = $state.raw<{ layout: Layout; fault: Fault | null } | null>(null);

  #kept = new Map<string, Kept>();
  #wanted: Opened | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #busy = false;

  /** What the library holds already, so that it is not written again. */
  know(kind: Kind, id: string, revision: number, document: Layout | Plan, name: string): void {
    this.#kept.set(`${kind}/${id}`, { revision, document, name });
  }

  keep(opened: Opened): void {
    this.#wanted = opened;
    this.#later(pause_ms);
  }

  flush(): void {
    clearTimeout(this.#timer);
    void this.#run();
  }

  /** Somebody changed the library. Our own changes come back too, and are known by their revision. */
  heard(change: Changed): void {
    if (change.kind !== 'layouts' && change.kind !== 'plans') return;
    const kind = change.kind;
    const ours = kind === 'layouts' ? this.#wanted?.layoutId : this.#wanted?.planId;
    if (ours !== change.id || change.deleted) return;
    const look = () => {
      if (this.#busy) return void setTimeout(look, 50);
      const kept = this.#kept.get(`${kind}/${change.id}`);
      if (kept?.revision && change.revision > kept.revision) {
        this.conflict = { kind, id: change.id };
      }
    };
    look();
  }

  /** The conflict was settled: `revision` null keeps ours under a new id. */
  settle(): void {
    this.conflict = null;
    this.state = 'kept';
  }

  #later(wait: number): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.#run(), wait);
  }

  async #run(): Promise<void> {
    const opened = this.#wanted;
    if (!opened || this.#busy || this.conflict) return;
    this.#busy = true;
    try {
      await this.#put('layouts', opened.layoutId, opened.layout, opened);
      if (opened.planId && opened.plan) {
        await this.#put('plans', opened.planId, opened.plan, opened);
      }
      this.state = 'kept';
      this.refusal = '';
    } catch (error) {
      if (
        error instanceof Unreachable ||
        (error instanceof Refusal && error.problem.status >= 500)
      ) {
        this.state = 'away';
        this.refusal = error instanceof Refusal ? error.message : '';
        this.#later(again_ms);
      } else if (error instanceof Refusal) {
        if (error.kind !== 'stale' && error.kind !== 'exists') {
          this.state = 'refused';
          this.refusal = error.message;
        }
      } else {
        throw error;
      }
    } finally {
      this.#busy = false;
    }
    if (this.#wanted !== opened && this.state !== 'away') this.#later(0);
  }

  async #put(kind: Kind, id: string, document: Layout | Plan, opened: Opened): Promise<void> {
    const key = `${kind}/${id}`;
    const kept = this.#kept.get(key);
    if (kept?.document === document && kept.name === opened.name) return;
    if (this.state === 'kept') this.state = 'keeping';
    const revision = kept?.revision ?? null;
    try {
      const entry =
        kind === 'layouts'
          ? await server.putLayout(id, opened.name, document as Layout, revision)
          : await server.putPlan(
              id,
              {
                name: opened.name,
                document: document as Plan,
                layout: opened.layoutId,
                parent: opened.parent,
              },
              revision,
            );
      this.#kept.set(key, { revision: entry.revision, document, name: opened.name });
      if (kind === 'layouts') {
        this.table = { layout: document as Layout, fault: (entry as LayoutEntry).fault };
      }
    } catch (error) {
      if (error instanceof Refusal && (error.kind === 'stale' || error.kind === 'exists')) {
        this.conflict = { kind, id };
      }
      throw error;
    }
  }
}
