// Planning as it goes on: the best plan so far, its stop, and a first shot of one's own.
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import { Bench, drag, go, openTable, planned, saved, smallTable } from './bench.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.start();
});
afterAll(() => bench.end());

interface PlanFile {
  effort: string;
  partial: boolean;
  chance: { value: number; trials: number };
  shots: { strike: { height: number }; runner_up: object | null }[];
}

async function planFile(page: Page): Promise<PlanFile> {
  await go(page, 'Explain');
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('link', { name: 'Save the plan' }).click(),
  ]);
  const file = JSON.parse(readFileSync(await download.path(), 'utf8')) as PlanFile;
  await go(page, 'Plan');
  return file;
}

it('shows the best plan so far, marked as unfinished, and a stop keeps it', async () => {
  const page = await bench.open();
  await planned(page);
  await page.keyboard.press('p');
  await page.getByRole('heading', { name: 'The best plan so far' }).waitFor({ timeout: 90_000 });
  await page.getByText('After a quick look. Not finished.').waitFor();
  await page.getByRole('list', { name: 'The best plan so far, shot by shot' }).waitFor();
  await page.getByText(/^So far: Clearing/).waitFor();
  await page.locator('.frame').nth(1).click();
  // Nothing of it can be taken in the hand: it may be replaced.
  expect(await page.locator('main [data-ball]').count()).toBe(0);
  expect(await page.locator('progress').getAttribute('value')).not.toBeNull();
  await page.getByRole('button', { name: 'Stop and keep this plan' }).click();
  await planned(page);
  await page.getByText('Nothing of this is kept').waitFor({ state: 'detached' });
  await saved(page);
  const file = await planFile(page);
  expect(file.effort).toBe('quick');
  expect(file.partial).toBe(true);
  expect(file.chance.trials).toBeGreaterThan(0);
  await page.context().close();
});

it('plans on from a first shot of your own, and estimates the whole with it', async () => {
  const page = await bench.open();
  await smallTable(page, 'My own shot');
  await page.getByRole('button', { name: 'Plan the clearance' }).click();
  await planned(page);
  await saved(page);
  const own = await planFile(page);
  expect(own.partial).toBe(false);
  await drag(page, page.locator('[data-part=tip]'), 0, 24);
  await page.getByText(/The pot goes .* as planned it goes/).waitFor();
  await page.getByRole('button', { name: 'Keep it and plan on' }).click();
  await page.getByText('What if?').waitFor({ state: 'detached', timeout: 90_000 });
  await planned(page);
  await page.getByText(/Clearing .*; the whole goes/).waitFor();
  await saved(page);
  const mine = await planFile(page);
  expect(mine.shots[0]?.strike.height).toBeLessThan(own.shots[0]?.strike.height ?? 0);
  expect(mine.chance.trials).toBe(own.chance.trials);
  expect(mine.shots[0]?.runner_up).not.toBeNull();

  // Later in the plan the chance of the whole cannot be told, and is not.
  await page.locator('.frame').nth(1).click();
  await drag(page, page.locator('[data-part=tip]'), 0, 12);
  await page.getByText(/The pot goes .* as planned it goes/).waitFor();
  await page.getByRole('button', { name: 'Keep it and plan on' }).click();
  await page.getByText('What if?').waitFor({ state: 'detached', timeout: 90_000 });
  await planned(page);
  await page.getByText('the chance of the whole is not estimated', { exact: false }).waitFor();
  await page.context().close();
});

it('leaves a table alone that was opened while another is planned', async () => {
  const page = await bench.open();
  await openTable(page, 'Evening class');
  await page.keyboard.press('p');
  await page.getByRole('button', { name: 'Stop', exact: true }).waitFor();
  await openTable(page, 'My own shot');
  await go(page, 'Plan');
  await planned(page);
  expect(await page.locator('.frame').count()).toBe(2);
  await page.context().close();
});

it('never complained', () => {
  expect(bench.complaints).toEqual([]);
});
