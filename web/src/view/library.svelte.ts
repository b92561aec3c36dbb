// Opening: what the library holds comes onto the page, files come in, and other pages' changes are
// heard of.
import { newId, withoutPlan, type Opened } from '../document/opened.ts';
import { server } from '../server/client.ts';
import type * as T from '../server/types.ts';
import { capital, tableName } from '../words/names.ts';
import { notes } from './notes.svelte.ts';
import { settings } from './settings.svelte.ts';
import { workbench } from './workbench.svelte.ts';

const again_ms = 1000;

class Library {
  async start(): Promise<void> {
    workbench.presets = await server.presets();
    const last = settings.last;
    const opened =
      (last && (await this.#load(last.layout, last.plan).catch(() => null))) ??
      (await this.#newest()) ??
      this.#bare();
    workbench.edit(opened);
    workbench.ready = true;
    this.#listen();
  }

  async #newest(): Promise<Opened | null> {
    const plans = await server.plans();
    for (const plan of plans) if (plan.layout) return this.#load(plan.layout, plan.id);
    const layouts = await server.layouts();
    return layouts[0] ? this.#load(layouts[0].id, null) : null;
  }

  async #load(layoutId: string, planId: string | null): Promise<Opened> {
    const [layout, plan] = await Promise.all([
      server.layout(layoutId),
      planId ? server.plan(planId).catch(() => null) : null,
    ]);
    const { keeper } = workbench;
    keeper.know('layouts', layout.id, layout.revision, layout.document, layout.name);
    keeper.table = { layout: layout.document, fault: layout.fault };
    if (plan) keeper.know('plans', plan.id, plan.revision, plan.document, layout.name);
    return {
      layoutId,
      name: layout.name,
      layout: layout.document,
      player: plan?.document.player ?? workbench.player('club'),
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
        table: workbench.presets.tables[0]?.id ?? 'english-7ft',
        rules: 'international',
        to_play: 'open',
        balls: [],
      },
      player: workbench.player('club'),
      planId: null,
      plan: null,
      parent: null,
      question: null,
    };
  }

  async open(layoutId: string): Promise<void> {
    await notes.try(async () => {
      const plans = await server.plans();
      const plan = plans.find((each) => each.layout === layoutId);
      workbench.edit(await this.#load(layoutId, plan?.id ?? null));
    });
  }

  newTable(): void {
    const { table, rules } = workbench.opened.layout;
    workbench.edit({
      ...withoutPlan(workbench.opened),
      layoutId: newId(),
      name: 'New table',
      layout: { format: 'three-ahead.layout/1', table, rules, to_play: 'open', balls: [] },
    });
    workbench.place = 'table';
  }

  // --- another page's changes --------------------------------------------------------------------

  async reloadTheirs(): Promise<void> {
    await notes.try(async () => {
      const { layoutId, planId } = workbench.opened;
      const opened = await this.#load(layoutId, planId);
      workbench.keeper.settle();
      workbench.edit(opened);
    });
  }

  keepAsCopy(): void {
    const { name, planId } = workbench.opened;
    workbench.keeper.settle();
    workbench.edit({
      ...workbench.opened,
      name: `${name}, copy`,
      layoutId: newId(),
      planId: planId ? newId() : null,
    });
  }

  #listen(): void {
    let boot: string | null = null;
    const open = () => {
      const source = new EventSource('/api/events');
      source.addEventListener('hello', (event) => {
        const hello = JSON.parse((event as MessageEvent<string>).data) as T.Hello;
        if (boot !== null && boot !== hello.boot)
          notes.message = 'The program is back; all is kept.';
        boot = hello.boot;
        notes.online = true;
        workbench.keeper.flush();
      });
      source.addEventListener('changed', (event) => {
        workbench.keeper.heard(JSON.parse((event as MessageEvent<string>).data) as T.Changed);
      });
      source.addEventListener('error', () => {
        notes.online = false;
        if (source.readyState !== EventSource.CLOSED) return;
        setTimeout(open, again_ms);
      });
    };
    open();
  }

  // --- files -------------------------------------------------------------------------------------

  async importFile(file: File): Promise<void> {
    let value: unknown;
    try {
      value = JSON.parse(await file.text());
    } catch {
      notes.message = `${file.name} is no JSON: give a layout, plan, player or table file.`;
      return;
    }
    await notes.try(async () => {
      const imported = await server.import(value);
      const name = file.name.replace(/\.json$/, '');
      if (imported.kind === 'layouts') {
        workbench.edit(await this.#load(imported.id, null));
        workbench.place = 'table';
      } else if (imported.kind === 'plans') {
        workbench.edit(await this.#ofPlan(imported.id, name));
        workbench.place = 'plan';
      } else if (imported.kind === 'players') {
        workbench.edit({ ...workbench.opened, player: value as T.Player });
      } else {
        workbench.editLayout({ ...workbench.opened.layout, table: value as T.Table });
      }
      notes.message = `${capital(imported.name || tableName(name))} is in.`;
    });
  }

  async #ofPlan(id: string, name: string): Promise<Opened> {
    const entry = await server.plan(id);
    workbench.keeper.know('plans', entry.id, entry.revision, entry.document, name);
    return {
      layoutId: newId(),
      name,
      layout: entry.document.layout,
      player: entry.document.player,
      planId: entry.id,
      plan: entry.document,
      parent: entry.parent,
      question: null,
    };
  }
}

export const library = new Library();
