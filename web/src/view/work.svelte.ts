// Work of the program that takes a while: one piece at a time, how far it is, and its stop.
import type * as T from '../server/types.ts';
import { notes } from './notes.svelte.ts';

export interface Job {
  readonly what: string;
  readonly stage: string;
  readonly fraction: number;
  /** Nothing where the work cannot be stopped. */
  readonly stop: (() => void) | null;
}

class Work {
  job = $state.raw<Job | null>(null);

  /** Without a stop and without progress. */
  async on(what: string, work: () => Promise<void>): Promise<void> {
    this.job = { what, stage: '', fraction: 0, stop: null };
    await notes.try(work);
    this.job = null;
  }

  /** A stream of the server; work that is under way is stopped for it. True when it was stopped. */
  async stream(
    what: string,
    ask: (signal: AbortSignal) => AsyncGenerator<{ name: string; data: unknown }>,
    hear: (name: string, data: unknown) => void,
  ): Promise<boolean> {
    this.job?.stop?.();
    const abort = new AbortController();
    const stop = () => abort.abort();
    const told = (progress: T.Progress) => (this.job = { what, ...progress, stop });
    told({ stage: '', fraction: 0 });
    try {
      for await (const { name, data } of ask(abort.signal)) {
        if (abort.signal.aborted) break;
        if (name === 'progress') told(data as T.Progress);
        hear(name, data);
      }
    } catch (error) {
      if (!abort.signal.aborted) notes.say(error);
    } finally {
      if (this.job?.stop === stop) this.job = null;
    }
    return abort.signal.aborted;
  }
}

export const work = new Work();
