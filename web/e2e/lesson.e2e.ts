// Explain: a teacher puts a lesson into their own words, plans again, and takes the files away.
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Locator, Page } from 'playwright-core';
import { Bench, go, planned, saved, smallTable } from './bench.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.start();
});
afterAll(() => bench.end());

/** Says the sentence that begins so in other words. */
async function say(page: Page, begins: RegExp, mine: string): Promise<void> {
  await page.getByRole('button', { name: begins }).first().click();
  await page.getByLabel('Your words').fill(mine);
  await page.getByRole('button', { name: 'Keep it' }).click();
  await page.getByText(mine).waitFor();
}

function file(page: Page, name: string): Locator {
  return page
    .getByRole('region', { name: 'The files of the lesson' })
    .getByRole('link', { name, exact: true });
}

async function download(page: Page, name: string): Promise<string> {
  const [taken] = await Promise.all([page.waitForEvent('download'), file(page, name).click()]);
  expect(taken.suggestedFilename()).toBe(name);
  return readFileSync(await taken.path(), 'utf8');
}

it('keeps the words of a teacher, flags them when their facts change, and makes the files', async () => {
  const page = await bench.open();
  await smallTable(page, 'Two to explain');
  await go(page, 'Plan');
  await page.getByRole('button', { name: 'Plan the clearance' }).first().click();
  await planned(page);
  await go(page, 'Explain');
  await say(page, /own words: .*order/i, 'First the red, then the black.');
  await say(page, /own words: .*clearance succeeds/, 'You will clear this one.');
  await page.getByText('Your words are not saved yet').waitFor({ state: 'detached' });
  await page.reload();
  await planned(page);
  await go(page, 'Explain');
  await page.getByText('First the red, then the black.').waitFor();

  // Planned again for somebody else: the order stands, the chance does not.
  await page.locator('.player select').selectOption('novice');
  await go(page, 'Plan');
  await page
    .getByRole('button', { name: /Plan (again|the clearance)/ })
    .first()
    .click();
  await planned(page);
  await saved(page);
  await go(page, 'Explain');
  const flag = page.getByRole('note').filter({ hasText: 'You will clear this one.' });
  await flag.waitFor();
  await page.getByText('First the red, then the black.', { exact: false }).waitFor();
  expect(await page.getByRole('note').filter({ hasText: 'First the red' }).count()).toBe(0);
  await flag.getByRole('button', { name: 'Mine is right all the same' }).click();
  await flag.waitFor({ state: 'detached' });

  await page.getByRole('button', { name: 'Preview a picture' }).click();
  const preview = page.getByRole('img', { name: 'shot-01, as it will be made' });
  await preview.waitFor();
  await expect
    .poll(() => preview.evaluate((image) => (image as HTMLImageElement).naturalWidth))
    .toBeGreaterThan(100);

  await page.getByLabel('pictures', { exact: true }).uncheck();
  await page.getByRole('button', { name: 'Make the lesson' }).click();
  await file(page, 'sheet-a4.pdf').waitFor({ timeout: 60_000 });
  expect(await download(page, 'words.txt')).toContain('You will clear this one.');
  expect(await download(page, 'clearance.html')).toContain('First the red, then the black.');
  expect((await download(page, 'sheet-a4.pdf')).slice(0, 5)).toBe('%PDF-');
  await page.context().close();
});

it('stops a film that is being made', async () => {
  const page = await bench.open();
  await planned(page);
  await go(page, 'Explain');
  await page.getByLabel('animation', { exact: true }).check();
  for (const other of ['words', 'pictures', 'sheet to print', 'captions']) {
    await page.getByLabel(other, { exact: true }).uncheck();
  }
  await page.getByRole('button', { name: 'Make the lesson' }).click();
  await page.getByText('Making the lesson: clearance-1080p.mp4').waitFor();
  await page.getByRole('button', { name: 'Stop', exact: true }).click();
  await page.getByText('Making the lesson').waitFor({ state: 'detached' });
  expect(await page.getByRole('region', { name: 'The files of the lesson' }).count()).toBe(0);
  await page.context().close();
});

it('never complained', () => {
  expect(bench.complaints).toEqual([]);
});
