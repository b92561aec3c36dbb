import { describe, expect, it } from 'vitest';
import { odds, percent, wilson } from '../src/words/chance.ts';
import { fates, tableName } from '../src/words/names.ts';
import { length, typed, untyped } from '../src/words/units.ts';

describe('chances in words', () => {
  it.each([
    [0, 'in no try'],
    [0.01, 'about 1 in 100'],
    [0.1, 'about 1 in 10'],
    [0.5, 'about 5 in 10'],
    [0.949, 'about 19 in 20'],
    [0.99, 'about 99 in 100'],
    [1, 'in every try'],
  ])('%f is %s', (chance, words) => expect(odds(chance)).toBe(words));

  it('never says that something possible is 0% or 100%', () => {
    expect(percent(0.001)).toBe('under 1%');
    expect(percent(0.999)).toBe('over 99%');
  });

  // R. G. Newcombe, "Two-sided confidence intervals for the single proportion", Statistics in
  // Medicine 17 (1998), table I, method 3 (score): 81/263, 15/148, 0/20, 1/29.
  it.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('the interval of %i in %i is the published one', (good, tries, low, high) => {
    const chance = wilson(good, tries);
    expect(chance.low).toBeCloseTo(low, 4);
    expect(chance.high).toBeCloseTo(high, 4);
  });
});

describe('lengths', () => {
  it('are told to the millimetre or a tenth of an inch', () => {
    expect(length(430.04, 'mm')).toBe('430 mm');
    expect(length(914.4, 'in')).toBe('36.0 in');
  });

  it('come back as they were typed', () => {
    expect(untyped(typed(254, 'in'), 'in')).toBeCloseTo(254, 9);
  });
});

it('what goes wrong is told likeliest first, and not what hardly happens', () => {
  const told = fates({
    good: 0.9,
    missed_thick: 0.02,
    missed_thin: 0.06,
    in_off: 0.003,
    wrong_first: 0,
    black_early: 0,
    miscue: 0.017,
  });
  expect(told.map((each) => each.what)).toEqual(['missed thin', 'missed thick', 'miscue']);
});

it('a table has a readable name', () => {
  expect(tableName('english-7ft-match')).toBe('English 7 ft, match');
});
