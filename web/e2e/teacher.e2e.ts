// A teacher's evening with the mouse: a table set by hand, read, planned, changed, played, planned
// again, taken home as a file, and found again.
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { Bench, centre, drag, go, openTable, planned, saved, smallTable } from './bench.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.start();
});
afterAll(() => bench.end());

it('opens on the example with its plan and a hint that can be put away', async () => {
  const page = await bench.open();
  await planned(page);
  expect(await page.locator('.frame').count()).toBe(7);
  await page.getByText('Drag a ball', { exact: false }).waitFor();
  await page.getByRole('button', { name: 'Got it' }).click();
  await page.reload();
  await planned(page);
  expect(await page.getByRole('button', { name: 'Got it' }).count()).toBe(0);
  await page.context().close();
});

it('takes a table from the tray to a re-plan, and keeps all of it', async () => {
  const page = await bench.open();
  await smallTable(page, 'Two to go');

  // From the tray by hand, then off again by undo.
  const tray = page.getByRole('button', { name: 'Put yellow 1 on the table' });
  const cue = await centre(page.locator('[data-ball=cue]'));
  const from = await centre(tray);
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(cue.x + 160, cue.y - 60, { steps: 8 });
  await page.mouse.up();
  await page.locator('[data-ball=yellow-1]').waitFor();
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.locator('[data-ball=yellow-1]').waitFor({ state: 'detached' });

  await go(page, 'Read');
  await page.getByRole('heading', { name: 'The reading' }).waitFor();
  await page.locator('[data-ball=red-1]').click();
  await page.getByRole('heading', { name: 'Red 1' }).waitFor();

  await page.getByRole('button', { name: 'Plan the clearance' }).click();
  await planned(page);
  expect(await page.locator('.frame').count()).toBe(2);

  // What if the tip were elsewhere: kept, and planned on from there.
  const tip = await centre(page.locator('[data-part=tip]'));
  await drag(page, page.locator('[data-part=tip]'), 0, 22);
  await page.getByText('What if?').waitFor();
  // The tip lies where the hand let it go: nothing moved away under it.
  const dropped = await centre(page.locator('[data-part=tip]'));
  expect(Math.abs(dropped.y - tip.y - 22)).toBeLessThan(3);
  await page.getByText(/The pot goes .* as planned it goes/).waitFor();
  await page.getByRole('button', { name: 'Keep it and plan on' }).click();
  await page.getByText('What if?').waitFor({ state: 'detached', timeout: 90_000 });
  await planned(page);
  await page.getByText(/Clearing .*; the whole goes/).waitFor();

  // Another leave is asked for, and its strikes come.
  await drag(page, page.locator('[data-part=leave]'), 60, 30);
  await page.getByRole('heading', { name: 'Strikes for that leave' }).waitFor();
  await page.getByText('Looking…').waitFor({ state: 'detached', timeout: 60_000 });
  await page.getByRole('button', { name: 'put away' }).click();

  // It was played, and the cue ball ran on.
  await page.getByRole('button', { name: 'It ended here' }).click();
  await drag(page, page.locator('[data-ball=cue]'), 40, -20);
  await page.getByRole('button', { name: 'Compare and plan again' }).click();
  await page.getByRole('heading', { name: 'From here' }).waitFor({ timeout: 90_000 });
  await page.getByRole('button', { name: /^Go on/ }).click();
  await planned(page);
  await saved(page);

  await go(page, 'Table');
  expect(await page.getByLabel('Name of this table').inputValue()).toBe('Two to go, after shot 1');
  expect(await page.locator('[data-ball=red-1]').count()).toBe(0);
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('link', { name: 'Export' }).click(),
  ]);
  const file = JSON.parse(readFileSync(await download.path(), 'utf8')) as {
    format: string;
    balls: { id: string }[];
  };
  expect(file.format).toBe('three-ahead.layout/1');
  expect(file.balls.map((ball) => ball.id).sort()).toEqual(['black', 'cue']);

  await page.reload();
  await planned(page);
  expect(await page.locator('.frame').count()).toBe(1);
  await openTable(page, 'Two to go');
  await page.locator('[data-ball=red-1]').waitFor();
  await go(page, 'Plan');
  await planned(page);
  expect(await page.locator('.frame').count()).toBe(2);
  await page.context().close();
});

it('undoes to the start and redoes to the end', async () => {
  const page = await bench.open();
  await openTable(page, 'Evening class');
  const across = page.getByLabel('Red 1, across');
  const start = await across.inputValue();
  for (const dx of [30, 25, 20]) await drag(page, page.locator('[data-ball=red-1]'), dx, 12);
  const end = await across.inputValue();
  expect(end).not.toBe(start);
  const undo = page.getByRole('button', { name: 'Undo' });
  const redo = page.getByRole('button', { name: 'Redo' });
  for (let i = 0; i < 3; ++i) await undo.click();
  expect(await across.inputValue()).toBe(start);
  while (await undo.isEnabled()) await undo.click();
  while (await redo.isEnabled()) await redo.click();
  expect(await across.inputValue()).toBe(end);
  await page.context().close();
});

it('takes in a file that is dropped on it, and says what is wrong with another', async () => {
  const page = await bench.open();
  const layout = readFileSync(new URL('../../examples/two-to-go.json', import.meta.url), 'utf8');
  const dropFile = (name: string, text: string) =>
    page.evaluate(
      ([file = '', content = '']) => {
        const data = new DataTransfer();
        data.items.add(new File([content], file, { type: 'application/json' }));
        document.body.dispatchEvent(
          new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true }),
        );
      },
      [name, text],
    );
  await dropFile('two-to-go.json', layout);
  await page.getByText('is in.').waitFor();
  expect(await page.locator('[data-ball]').count()).toBe(JSON.parse(layout).balls.length);
  await dropFile('notes.json', 'not a file of ours');
  await page.getByText('notes.json is no JSON').waitFor();
  await page.context().close();
});

it('shows a shot in motion', async () => {
  const page = await bench.open();
  await planned(page);
  await page.getByRole('button', { name: 'Watch it' }).click();
  await page.getByRole('button', { name: 'Pause' }).click();
  await page.getByRole('button', { name: 'On to the next event' }).click();
  await page.getByText(/\d s: /).waitFor();
  await page
    .getByRole('region', { name: 'The shot in motion' })
    .getByRole('button', { name: 'Close' })
    .click();
  await page.context().close();
});

it('never complained, and asked no one but the program', () => {
  expect(bench.complaints).toEqual([]);
});
