// Chances in words, by the same steps as the sheet's.
import type { Chance } from '../server/types.ts';

/** One in how many, rounded to what a person keeps: 12, 15, 20, 30, 40 ... 200. */
function oneIn(chance: number): number {
  const n = 1 / chance;
  const step = n < 12 ? 1 : n < 20 ? 5 : n < 100 ? 10 : 50;
  return Math.round(n / step) * step;
}

export function odds(chance: number): string {
  if (chance <= 0) return 'in no try';
  if (chance >= 1) return 'in every try';
  if (chance < 0.005) return 'fewer than 1 in 200';
  if (chance > 0.995) return 'more than 199 in 200';
  if (chance < 0.15) return `about 1 in ${oneIn(chance)}`;
  if (chance > 0.98) return 'about 99 in 100';
  if (chance > 0.925) return 'about 19 in 20';
  return `about ${Math.round(10 * chance)} in 10`;
}

/** The short form on a frame of the strip: "9 in 10". */
export function shortOdds(chance: number): string {
  return odds(chance)
    .replace('about ', '')
    .replace('in every', 'every')
    .replace('fewer than ', '< ')
    .replace('more than ', '> ');
}

export function percent(chance: number): string {
  if (chance > 0 && chance < 0.005) return 'under 1%';
  if (chance < 1 && chance > 0.995) return 'over 99%';
  return `${Math.round(100 * chance)}%`;
}

/** "78 to 91%", or nothing when it was not estimated by playing out. */
export function interval(chance: Chance): string {
  if (chance.trials === 0) return '';
  return `${Math.round(100 * chance.low)} to ${Math.round(100 * chance.high)}%`;
}

/** Whether a chance was estimated at all. */
export function known(chance: Chance): boolean {
  return chance.trials > 0;
}

/**
 * Wilson's 95% interval for `good` of `tries` (E. B. Wilson, Journal of the American Statistical
 * Association 22, 1927).
 */
export function wilson(good: number, tries: number): Chance {
  if (tries === 0) return { value: 0, low: 0, high: 1, trials: 0 };
  const z = 1.96;
  const p = good / tries;
  const middle = (p + z ** 2 / (2 * tries)) / (1 + z ** 2 / tries);
  const half =
    (z / (1 + z ** 2 / tries)) * Math.sqrt((p * (1 - p)) / tries + z ** 2 / (4 * tries ** 2));
  return {
    value: p,
    low: Math.max(0, middle - half),
    high: Math.min(1, middle + half),
    trials: tries,
  };
}
