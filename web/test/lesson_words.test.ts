import { expect, it } from 'vitest';
import { isFlagged, said, withMine, withoutUnused } from '../src/document/words.ts';
import type { TeacherWords } from '../src/server/types.ts';

const facts = [{ name: 'odds', words: 'about 9 in 10' }];
const words: TeacherWords = {
  format: 'three-ahead.words/1',
  sentences: [
    { key: 'red-2.chance', text: 'It goes about 9 in 10.', facts },
    { key: 'red-2.leave', text: 'Computed.', facts, mine: 'Mine.', mine_for: [] },
  ],
  unused: [{ key: 'red-9.task', text: 'x', facts: [], mine: 'Mine.' }],
};
const [chance, leave] = words.sentences as [
  TeacherWords['sentences'][0],
  TeacherWords['sentences'][0],
];

it("says the teacher's words while their facts hold", () => {
  const edited = withMine(words, 'red-2.chance', 'You make this.');
  expect(said(edited.sentences[0] ?? chance)).toBe('You make this.');
  expect(said(chance)).toBe('It goes about 9 in 10.');
  expect(isFlagged(leave)).toBe(true);
  expect(said(leave)).toBe('Computed.');
});

it('takes flagged words up again, and takes words away', () => {
  const again = withMine(words, 'red-2.leave', 'Mine.').sentences[1] ?? leave;
  expect(again.mine_for).toBeUndefined();
  expect(said(again)).toBe('Mine.');
  expect(withMine(words, 'red-2.leave', '').sentences[1]).not.toHaveProperty('mine');
  // The computed words are nobody's edit.
  expect(withMine(words, 'red-2.leave', 'Computed.').sentences[1]).not.toHaveProperty('mine');
});

it('drops what is no longer said', () => {
  expect(withoutUnused(words, 'red-9.task').unused).toEqual([]);
});
