// A shot played again and again: counted, taken back, and found again.
import { afterAll, beforeAll, expect, it } from 'vitest';
import { Bench, go, onScreen, planned } from './bench.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.start();
});
afterAll(() => bench.end());

it('counts what goes, beside what the plan says, and keeps the count', async () => {
  const page = await bench.open();
  await planned(page);
  await go(page, 'Practise');
  const count = page.locator('dl dd').first();
  expect(await count.textContent()).toBe('0 of 0');
  const { x, y } = await onScreen(page, 500, 700);
  await page.mouse.click(x, y);
  await page.getByRole('button', { name: 'Potted' }).click();
  await page.getByText('1 of 1').first().waitFor();
  expect(await page.locator('path.stopped').count()).toBe(1);
  await page.getByRole('button', { name: 'Missed' }).click();
  await page.getByText('1 of 2').first().waitFor();
  await page.getByRole('button', { name: 'take it back' }).click();
  await page.getByText('1 of 1').first().waitFor();
  await page.getByRole('button', { name: 'Missed' }).click();
  await page.getByText('1 of 2').first().waitFor();
  await page.getByText('say little yet', { exact: false }).waitFor();

  await page.reload();
  await planned(page);
  await go(page, 'Practise');
  await page.getByText('1 of 2').first().waitFor();
  expect(bench.complaints).toEqual([]);
  await page.context().close();
});
