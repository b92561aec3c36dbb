// The reading of the open table, for the player who is chosen.
import { server } from '../server/client.ts';
import type * as T from '../server/types.ts';
import { work } from './work.svelte.ts';
import { workbench } from './workbench.svelte.ts';

class ReadingDesk {
  #read = $state.raw<{ layout: T.Layout; player: string; answer: T.ReadAnswer } | null>(null);

  /** Nothing until this table has been read for this player. */
  readonly answer: T.ReadAnswer | null = $derived.by(() => {
    const opened = workbench.history?.now;
    const fits = this.#read?.layout === opened?.layout && this.#read?.player === opened?.player.id;
    return fits ? (this.#read?.answer ?? null) : null;
  });

  async read(): Promise<void> {
    if (this.answer) return;
    const { layout, player } = workbench.opened;
    await work.on('Reading the table', async () => {
      const answer = await server.read({ layout, player });
      this.#read = { layout, player: player.id, answer };
    });
  }
}

export const readingDesk = new ReadingDesk();
