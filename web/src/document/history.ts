// Undo and redo over values that are never changed in place: old ones are kept, which costs little
// because they share all that they have in common.

export interface History<T> {
  readonly past: readonly T[];
  readonly now: T;
  readonly future: readonly T[];
  /** Set while a run of small steps is to be undone as one. */
  readonly run: string | null;
}

const most_steps = 500;

export function begin<T>(now: T): History<T> {
  return { past: [], now, future: [], run: null };
}

/** `run`: steps that follow each other with the same run are undone together. */
export function step<T>(history: History<T>, now: T, run: string | null = null): History<T> {
  if (now === history.now) return history;
  const past =
    run !== null && run === history.run
      ? history.past
      : [...history.past, history.now].slice(-most_steps);
  return { past, now, future: [], run };
}

export function undo<T>(history: History<T>): History<T> {
  const now = history.past.at(-1);
  if (now === undefined) return history;
  return {
    past: history.past.slice(0, -1),
    now,
    future: [history.now, ...history.future],
    run: null,
  };
}

export function redo<T>(history: History<T>): History<T> {
  const [now, ...future] = history.future;
  if (now === undefined) return history;
  return { past: [...history.past, history.now], now, future, run: null };
}

export function closeRun<T>(history: History<T>): History<T> {
  return history.run === null ? history : { ...history, run: null };
}
