// What the page says to the person: the last message, and whether the program answers.
import { Refusal, Unreachable } from '../server/client.ts';

class Notes {
  message = $state('');
  online = $state(true);

  /** Says why something was refused. Any other error is a fault of the page and is thrown on. */
  say(error: unknown): void {
    if (!(error instanceof Refusal || error instanceof Unreachable)) throw error;
    if (error instanceof Unreachable) this.online = false;
    this.message = error.message;
  }

  /** Runs something that may be refused, and says so. */
  async try(work: () => Promise<unknown>): Promise<void> {
    try {
      await work();
    } catch (error) {
      this.say(error);
    }
  }
}

export const notes = new Notes();
