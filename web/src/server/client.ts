// The server's answers as values. Every failure is a Refusal with a sentence that can be shown.
import type * as T from './types.ts';

export class Refusal extends Error {
  readonly problem: T.Problem;

  constructor(problem: T.Problem) {
    super(problem.detail);
    this.problem = problem;
  }

  /** The last part of the problem's name: "stale", "busy", "bad-input". */
  get kind(): string {
    return this.problem.type.split(':').at(-1) ?? '';
  }
}

/** The server does not answer at all. */
export class Unreachable extends Error {
  constructor() {
    super('The program does not answer. Your work on this page is kept until it does.');
  }
}

async function ask(path: string, init: RequestInit = {}): Promise<Response> {
  let response: Response;
  try {
    response = await fetch(path, init);
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') throw error;
    throw new Unreachable();
  }
  if (response.ok) return response;
  throw new Refusal(await problemOf(response));
}

async function problemOf(response: Response): Promise<T.Problem> {
  try {
    const problem = (await response.json()) as T.Problem;
    if (typeof problem.detail === 'string') return problem;
  } catch {
    // Not a problem document: said below.
  }
  return {
    type: 'urn:three-ahead:problem:internal',
    title: 'No reason given',
    status: response.status,
    detail: `The program refused (status ${response.status}) and gave no reason.`,
  };
}

async function get<Answer>(path: string): Promise<Answer> {
  return (await ask(path)).json() as Promise<Answer>;
}

function body(value: unknown, signal?: AbortSignal): RequestInit {
  const init: RequestInit = {
    method: 'POST',
    headers: { 'Content-Type': 'application/json' },
    body: JSON.stringify(value),
  };
  if (signal) init.signal = signal;
  return init;
}

async function post<Answer>(path: string, value: unknown, signal?: AbortSignal): Promise<Answer> {
  return (await ask(path, body(value, signal))).json() as Promise<Answer>;
}

/** `revision` null creates. */
async function put<Entry>(path: string, draft: unknown, revision: number | null): Promise<Entry> {
  const condition: Record<string, string> =
    revision === null ? { 'If-None-Match': '*' } : { 'If-Match': `"${revision}"` };
  const response = await ask(path, {
    method: 'PUT',
    headers: { 'Content-Type': 'application/json', ...condition },
    body: JSON.stringify(draft),
  });
  return response.json() as Promise<Entry>;
}

export interface StreamEvent {
  readonly name: string;
  readonly data: unknown;
}

/** The events of a text/event-stream body, as the standard's "event" and "data" lines say. */
export async function* events(stream: ReadableStream<Uint8Array>): AsyncGenerator<StreamEvent> {
  const reader = stream.pipeThrough(new TextDecoderStream() as never).getReader();
  let rest = '';
  try {
    for (;;) {
      const { value, done } = (await reader.read()) as { value?: string; done: boolean };
      if (done) return;
      rest += value ?? '';
      const blocks = rest.split(/\r?\n\r?\n/);
      rest = blocks.pop() ?? '';
      for (const block of blocks) {
        let name = 'message';
        const data: string[] = [];
        for (const line of block.split(/\r?\n/)) {
          if (line.startsWith('event:')) name = line.slice(6).trim();
          if (line.startsWith('data:')) data.push(line.slice(5).replace(/^ /, ''));
        }
        if (data.length > 0) yield { name, data: JSON.parse(data.join('\n')) as unknown };
      }
    }
  } finally {
    await reader.cancel().catch(() => undefined);
  }
}

async function* stream(
  path: string,
  question: unknown,
  signal: AbortSignal,
): AsyncGenerator<StreamEvent> {
  const response = await ask(path, body(question, signal));
  if (!response.body) throw new Unreachable();
  try {
    for await (const event of events(response.body)) {
      if (event.name === 'problem') throw new Refusal(event.data as T.Problem);
      yield event;
      if (event.name === 'done') return;
    }
  } catch (error) {
    if (error instanceof Refusal || signal.aborted) throw error;
  }
  // It broke off: the program has gone.
  throw new Unreachable();
}

export const server = {
  presets: () => get<T.Presets>('/api/presets'),

  layouts: () => get<{ layouts: T.LayoutBrief[] }>('/api/layouts').then((list) => list.layouts),
  layout: (id: string) => get<T.LayoutEntry>(`/api/layouts/${id}`),
  putLayout: (id: string, name: string, document: T.Layout, revision: number | null) =>
    put<T.LayoutEntry>(`/api/layouts/${id}`, { name, document }, revision),

  plans: () => get<{ plans: T.PlanBrief[] }>('/api/plans').then((list) => list.plans),
  plan: (id: string) => get<T.PlanEntry>(`/api/plans/${id}`),
  putPlan: (
    id: string,
    draft: { name: string; document: T.Plan; layout: string | null; parent: string | null },
    revision: number | null,
  ) => put<T.PlanEntry>(`/api/plans/${id}`, draft, revision),

  results: () => get<{ results: T.ResultBrief[] }>('/api/results').then((list) => list.results),
  putResult: (id: string, name: string, document: T.ResultDocument) =>
    put(`/api/results/${id}`, { name, document }, null),

  /** One that was never changed. */
  removeResult: (id: string) =>
    ask(`/api/results/${id}`, { method: 'DELETE', headers: { 'If-Match': '"1"' } }),

  import: (file: unknown) => post<T.Imported>('/api/import', file),

  read: (question: { layout: T.Layout; player: T.WhoPlays }) =>
    post<T.ReadAnswer>('/api/read', question),
  shot: (question: T.ShotQuestion, signal?: AbortSignal) =>
    post<T.LiveShot>('/api/shot', question, signal),
  pots: (question: { layout: T.Layout; player: T.WhoPlays }) =>
    post<{ pots: T.PotBrief[] }>('/api/pots', question),
  leaves: (question: T.LeaveQuestion, signal?: AbortSignal) =>
    post<T.Leaves>('/api/leaves', question, signal),
  view: (plan: T.Plan) => post<T.PlanView>('/api/view', plan),

  capture: (question: {
    photograph: string;
    table: T.Layout['table'];
    corners?: T.Capture['corners'];
  }) => post<T.Capture>('/api/capture', question),
  drawing: (question: { camera: T.Capture['camera']; plan: T.Plan; shot: number }) =>
    post<T.Drawing>('/api/capture/drawing', question),

  planning: (question: T.PlanQuestion, signal: AbortSignal) =>
    stream('/api/plan', question, signal),
  comparing: (
    question: { plan: T.Plan; shot: number; actual: T.Layout; player?: T.WhoPlays },
    signal: AbortSignal,
  ) => stream('/api/after', question, signal),

  wordsKept: () => get<{ words: T.WordsBrief[] }>('/api/words').then((list) => list.words),
  words: (id: string) => get<T.WordsEntry>(`/api/words/${id}`),
  putWords: (id: string, name: string, document: T.TeacherWords, revision: number | null) =>
    put<T.WordsEntry>(`/api/words/${id}`, { name, document }, revision),
  lessonWords: (question: T.LessonQuestion) => post<T.LessonWords>('/api/lesson/words', question),
  lessonPicture: async (question: T.LessonQuestion) =>
    (await ask('/api/lesson/picture', body(question))).blob(),
  lesson: (question: T.LessonQuestion, signal: AbortSignal) =>
    stream('/api/lesson', question, signal),
};
