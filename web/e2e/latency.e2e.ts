// How long after a move of the hand the paths follow, the way to the server and back included. It is
// told, not asserted: a loaded machine is no fault of the page.
import { afterAll, beforeAll, expect, it } from 'vitest';
import { Bench, centre, planned } from './bench.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.start();
});
afterAll(() => bench.end());

it('the first drawing is there soon after the address was opened', async () => {
  const times: number[] = [];
  for (let i = 0; i < 5; ++i) {
    const context = await bench.context();
    const page = await context.newPage();
    await page.addInitScript(() => {
      const watch = new MutationObserver(() => {
        if (!document.querySelector('main.table .ribbon.of-cue')) return;
        watch.disconnect();
        requestAnimationFrame(() => Object.assign(window, { drawn: performance.now() }));
      });
      watch.observe(document, { childList: true, subtree: true });
    });
    await page.goto(bench.address);
    await page.waitForFunction(() => 'drawn' in window);
    times.push(await page.evaluate(() => (window as unknown as { drawn: number }).drawn));
    await context.close();
  }
  times.sort((a, b) => a - b);
  console.log(
    `first drawing, five first visits: ${times.map((time) => time.toFixed(0)).join(', ')} ms ` +
      'after the navigation began',
  );
  expect(times.length).toBe(5);
});

const moves = 150;

it.each(['[data-ball=cue]', '[data-part=tip]'])('the paths follow %s', async (what) => {
  const page = await bench.open();
  await planned(page);
  await page.evaluate(() => {
    const delays: number[] = [];
    let since: number | null = null;
    addEventListener('pointermove', (event) => (since ??= event.timeStamp), true);
    new MutationObserver((changes) => {
      const drawn = changes.some((change) =>
        (change.target as Element).closest?.('.ribbon.of-cue:not(.other)'),
      );
      if (!drawn || since === null) return;
      delays.push(performance.now() - since);
      since = null;
    }).observe(document.body, { attributes: true, childList: true, subtree: true });
    Object.assign(window, { delays });
  });
  const { x, y } = await centre(page.locator(what));
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 1; i <= moves; ++i) {
    // To and fro by two pixels a move: each asks another question than the last.
    const off = Math.abs(((2 * i + 24) % 96) - 48) - 24;
    await page.mouse.move(x + off / 2, y + off);
    await page.waitForTimeout(33);
  }
  await page.mouse.up();
  const delays = await page.evaluate(() => (window as unknown as { delays: number[] }).delays);
  delays.sort((a, b) => a - b);
  const at = (share: number) => delays[Math.floor(share * (delays.length - 1))]?.toFixed(0);
  console.log(
    `${what}: ${delays.length} redrawings for ${moves} moves; ` +
      `half within ${at(0.5)} ms, 95% within ${at(0.95)} ms, the slowest ${at(1)} ms`,
  );
  expect(delays.length).toBeGreaterThan(10);
  await page.context().close();
});
