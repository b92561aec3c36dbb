// A question asked again and again while a hand moves: at most one is under way, and when its answer
// comes the newest waiting question is asked next. Answers to older questions than one already
// answered never show.

export interface Newest<Question> {
  ask(question: Question): void;
  /** Forgets what waits and drops the answer under way. */
  drop(): void;
}

export function newest<Question, Answer>(
  send: (question: Question) => Promise<Answer>,
  show: (answer: Answer, question: Question) => void,
  fail: (error: unknown) => void,
): Newest<Question> {
  let waiting: { question: Question } | null = null;
  let busy = false;
  let era = 0;

  async function run(): Promise<void> {
    busy = true;
    while (waiting) {
      const { question } = waiting;
      const asked = era;
      waiting = null;
      try {
        const answer = await send(question);
        if (asked === era) show(answer, question);
      } catch (error) {
        if (asked === era) fail(error);
      }
    }
    busy = false;
  }

  return {
    ask(question) {
      waiting = { question };
      if (!busy) void run();
    },
    drop() {
      waiting = null;
      era += 1;
    },
  };
}
