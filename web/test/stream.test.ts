import { expect, it } from 'vitest';
import { events } from '../src/server/client.ts';

/** Bytes in pieces cut where they hurt: inside a line, inside a letter of two bytes. */
function cut(text: string, size: number): ReadableStream<Uint8Array> {
  const bytes = new TextEncoder().encode(text);
  return new ReadableStream({
    start(controller) {
      for (let i = 0; i < bytes.length; i += size) controller.enqueue(bytes.slice(i, i + size));
      controller.close();
    },
  });
}

// The lines are those of the HTML standard's section on server-sent events.
it.each([1, 3, 1000])('events come whole from pieces of %i bytes', async (size) => {
  const text =
    ': a comment\n\nevent: progress\ndata: {"stage":"é"}\n\nevent: done\ndata: {"a":\ndata: 1}\n\n';
  const heard = [];
  for await (const event of events(cut(text, size))) heard.push(event);
  expect(heard).toEqual([
    { name: 'progress', data: { stage: 'é' } },
    { name: 'done', data: { a: 1 } },
  ]);
});
