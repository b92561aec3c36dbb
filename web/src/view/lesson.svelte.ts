// The lesson of the open plan: how it is told, the teacher's own words, and the files made of it.
import { withMine, withoutUnused } from '../document/words.ts';
import { Refusal, server, Unreachable } from '../server/client.ts';
import type * as T from '../server/types.ts';
import { notes } from './notes.svelte.ts';
import { work } from './work.svelte.ts';
import { workbench } from './workbench.svelte.ts';

const again_ms = 700;

type Edit = (words: T.TeacherWords) => T.TeacherWords;

export class LessonDesk {
  settings = $state.raw<T.LessonSettings>({
    what: ['words', 'pictures', 'sheet', 'page', 'captions'],
    for: 'pupil',
    units: 'mm',
    words: 'uk',
    layers: ['aim', 'contours', 'numbers'],
    transparent: false,
    png_width: 1600,
    films: ['wide-mp4', 'tall-mp4'],
    clip: 1,
  });
  told = $state.raw<T.LessonWords | null>(null);
  files = $state.raw<readonly T.LessonFile[]>([]);
  /** Words that the library does not hold yet. */
  unsaved = $state(false);

  #layoutId = '';
  #revision: number | null = null;
  #words: T.TeacherWords | null = null;
  #asked: object = {};

  /** The words of `plan`, with what the teacher said of this table before. */
  async follow(plan: T.Plan, layoutId: string): Promise<void> {
    const asked = (this.#asked = {});
    await notes.try(async () => {
      if (layoutId !== this.#layoutId) {
        this.told = null;
        this.files = [];
        const kept = await this.#kept(layoutId);
        if (asked !== this.#asked) return;
        this.#layoutId = layoutId;
        this.#words = kept?.document ?? null;
        this.#revision = kept?.revision ?? null;
      }
      const settings = { ...this.settings, clip: Math.min(this.settings.clip, plan.shots.length) };
      if (settings.clip !== this.settings.clip) this.settings = settings;
      const told = await server.lessonWords({ plan, settings, words: this.#words });
      if (asked === this.#asked) this.told = told;
    });
  }

  async #kept(id: string): Promise<T.WordsEntry | null> {
    const all = await server.wordsKept();
    return all.some((each) => each.id === id) ? server.words(id) : null;
  }

  set(change: Partial<T.LessonSettings>): void {
    this.settings = { ...this.settings, ...change };
  }

  /** `mine` in place of a sentence; empty for the computed one. */
  async say(key: string, mine: string): Promise<void> {
    await this.#edit((words) => withMine(words, key, mine.trim()));
  }

  async dropUnused(key: string): Promise<void> {
    await this.#edit((words) => withoutUnused(words, key));
  }

  async #edit(edit: Edit): Promise<void> {
    if (!this.told) return;
    const words = edit(this.told.words);
    this.#words = words;
    this.told = { ...this.told, words, unused: words.unused.map((each) => each.key) };
    this.unsaved = true;
    await this.#save(edit);
  }

  async #save(edit: Edit): Promise<void> {
    const id = this.#layoutId;
    const words = this.#words;
    if (!words) return;
    try {
      const entry = await server.putWords(id, workbench.opened.name, words, this.#revision);
      if (id !== this.#layoutId) return;
      this.#revision = entry.revision;
      if (words === this.#words) this.unsaved = false;
    } catch (error) {
      if (error instanceof Unreachable) {
        setTimeout(() => void this.#save(edit), again_ms);
      } else if (error instanceof Refusal && ['stale', 'exists'].includes(error.kind)) {
        await this.#merge(id, edit);
      } else {
        await notes.try(() => Promise.reject(error));
      }
    }
  }

  /** Another page has edited too: this edit is made to its words. */
  async #merge(id: string, edit: Edit): Promise<void> {
    const kept = await this.#kept(id);
    if (!kept || id !== this.#layoutId) return;
    this.#revision = kept.revision;
    this.#words = edit(kept.document);
    await this.#save(edit);
    const { plan } = workbench.opened;
    if (plan) await this.follow(plan, id);
  }

  /** As a question about the open plan. */
  question(plan: T.Plan): T.LessonQuestion {
    return { plan, settings: this.settings, words: this.told?.words ?? null };
  }

  async make(plan: T.Plan): Promise<void> {
    this.files = [];
    const question = this.question(plan);
    await work.stream(
      'Making the lesson',
      (signal) => server.lesson(question, signal),
      (name, data) => {
        if (name === 'done') this.files = (data as T.LessonDone).files;
      },
    );
  }
}

export const lessonDesk = new LessonDesk();
