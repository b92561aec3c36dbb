// The teacher's own sentences among the computed ones, as pure edits.
import type { TeacherSentence, TeacherWords } from '../server/types.ts';

/** What is said: the teacher's words, unless they were written for other facts. */
export function said(sentence: TeacherSentence): string {
  return sentence.mine && !sentence.mine_for ? sentence.mine : sentence.text;
}

/** The teacher's words were written for other facts, so the computed sentence is said. */
export function isFlagged(sentence: TeacherSentence): boolean {
  return Boolean(sentence.mine && sentence.mine_for);
}

/** `mine` for the facts as they are now; empty takes the teacher's words away. */
export function withMine(words: TeacherWords, key: string, mine: string): TeacherWords {
  const sentences = words.sentences.map((each) => {
    if (each.key !== key) return each;
    const { mine: _, mine_for: __, ...computed } = each;
    return mine && mine !== each.text ? { ...computed, mine } : computed;
  });
  return { ...words, sentences };
}

/** Drops words for a sentence that is no longer said. */
export function withoutUnused(words: TeacherWords, key: string): TeacherWords {
  return { ...words, unused: words.unused.filter((each) => each.key !== key) };
}
