// Everything that a key, a button or the list of keys can do: one entry an action.
import { mirrored } from './document/layout.ts';
import { aftermath } from './view/aftermath.svelte.ts';
import { asking } from './view/asking.svelte.ts';
import { drawings } from './view/drawings.svelte.ts';
import { leaving } from './view/leaving.svelte.ts';
import { planning } from './view/planning.svelte.ts';
import { work } from './view/work.svelte.ts';
import { places, workbench as w } from './view/workbench.svelte.ts';

export interface Action {
  readonly name: string;
  /** As `KeyboardEvent.key`; "mod+" is Ctrl, or Command where that is the custom. */
  readonly keys: readonly string[];
  readonly possible: () => boolean;
  readonly perform: () => void;
}

/** What the Plan place lends while it is on the page. */
export interface PlanTools {
  playPause(): void;
  stepEvent(by: 1 | -1): void;
  toggleEye(): void;
  escape(): void;
}

const always = () => true;
const inPlan = () => w.place === 'plan' && drawings.view !== null;
/** A shot of the finished plan shows. */
const shown = () => inPlan() && planning.soFar === null;

export function actionsFor(plan: () => PlanTools | undefined, help: () => void): Action[] {
  const go = (by: 1 | -1) => {
    const count = (planning.soFar ?? drawings.view)?.shots.length ?? 0;
    w.shot = Math.min(count - 1, Math.max(0, w.shot + by));
    leaving.drop();
  };
  return [
    ...places.map((place, i) => ({
      name: `Go to ${place}`,
      keys: [String(i + 1)],
      possible: always,
      perform: () => (w.place = place),
    })),
    { name: 'Undo', keys: ['mod+z'], possible: () => w.canUndo, perform: () => w.undo() },
    {
      name: 'Redo',
      keys: ['mod+shift+z', 'mod+y'],
      possible: () => w.canRedo,
      perform: () => w.redo(),
    },
    {
      name: 'Plan the clearance',
      keys: ['p'],
      possible: () => !work.job,
      perform: () => void planning.plan(),
    },
    {
      name: 'Mirror the table',
      keys: ['m'],
      possible: () => w.place === 'table' && w.table !== null,
      perform: () => {
        if (w.table) w.editLayout(mirrored(w.opened.layout, w.table));
      },
    },
    { name: 'The shot before', keys: ['['], possible: inPlan, perform: () => go(-1) },
    { name: 'The next shot', keys: [']'], possible: inPlan, perform: () => go(1) },
    {
      name: 'Play the motion, or pause it',
      keys: [' '],
      possible: inPlan,
      perform: () => plan()?.playPause(),
    },
    {
      name: 'On to the next event',
      keys: ['.'],
      possible: inPlan,
      perform: () => plan()?.stepEvent(1),
    },
    {
      name: 'Back to the event before',
      keys: [','],
      possible: inPlan,
      perform: () => plan()?.stepEvent(-1),
    },
    { name: "The player's eye", keys: ['e'], possible: inPlan, perform: () => plan()?.toggleEye() },
    {
      name: 'Draw a region for the leave',
      keys: ['r'],
      possible: () => shown() && !aftermath.ended,
      perform: () => leaving.beginRegion(),
    },
    {
      name: 'It ended here',
      keys: ['h'],
      possible: () => shown() && !aftermath.ended && !asking.question,
      perform: () => aftermath.begin(),
    },
    {
      name: 'Keep the what-if and plan on',
      keys: ['k'],
      possible: () =>
        shown() &&
        !work.job &&
        asking.question !== null &&
        asking.live !== null &&
        !asking.live.no_pot,
      perform: () => void planning.keepQuestion(),
    },
    {
      name: 'Away with what is open, back to the plan',
      keys: ['Escape'],
      possible: inPlan,
      perform: () => plan()?.escape(),
    },
    { name: 'This list of keys', keys: ['?'], possible: always, perform: help },
  ];
}

/** The action of a key press, unless the press belongs to a field that is being filled in. */
export function actionOf(actions: readonly Action[], event: KeyboardEvent): Action | undefined {
  const mod = event.ctrlKey || event.metaKey;
  const target = event.target as HTMLElement | null;
  const typing =
    target?.matches('input:not([type=range]):not([type=checkbox]), textarea, select') ?? false;
  if ((typing && !mod) || event.altKey) return undefined;
  if (event.key === ' ' && target?.matches('button, a, summary, input, [role=button]')) {
    return undefined;
  }
  const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
  const chord = `${mod ? 'mod+' : ''}${mod && event.shiftKey ? 'shift+' : ''}${key}`;
  return actions.find((action) => action.keys.includes(chord) && action.possible());
}

export function keyName(chord: string): string {
  return chord
    .replace('mod+', 'Ctrl ')
    .replace('shift+', 'Shift ')
    .replace(/^ $/, 'Space')
    .replace(/ (.)$/, (_, letter: string) => ` ${letter.toUpperCase()}`);
}
