import type { Option } from '../server/types.ts';

export function ballName(id: string): string {
  if (id === 'cue') return 'cue ball';
  return id.replace('-', ' ');
}

export function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** "bottom-right" is "bottom right" on screen. */
export function pocketName(pocket: string): string {
  return pocket.replace('-', ' ');
}

export function callName(call: { ball: string; pocket: string }): string {
  return `${capital(ballName(call.ball))} to ${pocketName(call.pocket)}`;
}

const rules: Record<string, string> = {
  international: 'International',
  world: 'World',
  blackball: 'Blackball',
  'american-8ball': 'American 8-ball',
  snooker: 'Snooker',
};

export function rulesName(id: string): string {
  return rules[id] ?? id;
}

export function tableName(id: string): string {
  return capital(id.replace('-', ' ').replace('ft', ' ft').replace('-', ', '));
}

const toPlay: Record<string, string> = {
  red: 'the reds',
  yellow: 'the yellows',
  black: 'the black',
  open: 'open: either colour',
  solid: 'the solids',
  stripe: 'the stripes',
  colours: 'the colours',
};

export function toPlayName(id: string): string {
  return toPlay[id] ?? id;
}

/** What goes wrong, likeliest first; leaves out what happens in fewer than 1 of 200. */
export function fates(of: Option['fates']): { what: string; chance: number }[] {
  const names: Record<string, string> = {
    missed_thick: 'missed thick',
    missed_thin: 'missed thin',
    in_off: 'in-off',
    wrong_first: 'wrong ball first',
    black_early: 'black early',
    miscue: 'miscue',
  };
  return Object.entries(of)
    .filter(([name, chance]) => name !== 'good' && chance >= 0.005)
    .map(([name, chance]) => ({ what: names[name] ?? name, chance }))
    .sort((a, b) => b.chance - a.chance);
}

/**
 * The pace words and where each begins, m/s of the cue ball off the tip, as on the sheet: typical
 * speeds as published by D. Alciatore (billiards.colostate.edu) for a larger table.
 */
export const paces = [
  { word: 'touch', from: 0 },
  { word: 'slow', from: 0.45 },
  { word: 'medium', from: 0.9 },
  { word: 'fast', from: 1.9 },
  { word: 'power', from: 3.2 },
];
