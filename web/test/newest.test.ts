import { describe, expect, it } from 'vitest';
import { newest } from '../src/server/newest.ts';

/** A server whose answers come when the test lets them. */
function slow() {
  const sent: number[] = [];
  const answers: ((answer: string) => void)[] = [];
  return {
    sent,
    answer: async (text: string) => {
      answers.shift()?.(text);
      await new Promise((done) => setTimeout(done, 0));
    },
    send: (question: number) => {
      sent.push(question);
      return new Promise<string>((done) => answers.push(done));
    },
  };
}

describe('a question asked while the hand moves', () => {
  it('is sent one at a time, the newest next, and those between never', async () => {
    const server = slow();
    const shown: string[] = [];
    const question = newest(
      server.send,
      (answer) => shown.push(answer),
      () => undefined,
    );
    for (const each of [1, 2, 3, 4]) question.ask(each);
    expect(server.sent).toEqual([1]);
    await server.answer('one');
    expect(server.sent).toEqual([1, 4]);
    await server.answer('four');
    expect(shown).toEqual(['one', 'four']);
  });

  it('is not answered any more once it is dropped', async () => {
    const server = slow();
    const shown: string[] = [];
    const question = newest(
      server.send,
      (answer) => shown.push(answer),
      () => undefined,
    );
    question.ask(1);
    question.drop();
    await server.answer('late');
    expect(shown).toEqual([]);
    question.ask(2);
    await server.answer('two');
    expect(shown).toEqual(['two']);
  });

  it('goes on after a failure', async () => {
    const failed: unknown[] = [];
    const shown: number[] = [];
    const question = newest(
      (n: number) => (n === 1 ? Promise.reject(new Error('no')) : Promise.resolve(n)),
      (answer) => shown.push(answer),
      (error) => failed.push(error),
    );
    question.ask(1);
    await new Promise((done) => setTimeout(done, 0));
    question.ask(2);
    await new Promise((done) => setTimeout(done, 0));
    expect(failed).toHaveLength(1);
    expect(shown).toEqual([2]);
  });
});
