// What can go wrong around an open page.
import { afterAll, beforeAll, expect, it } from 'vitest';
import { Bench, drag, go, openTable, planned, saved, smallTable } from './bench.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.start();
});
afterAll(() => bench.end());

it('goes on when the server is killed and comes back, and loses nothing', async () => {
  const page = await bench.open({}, true);
  await go(page, 'Table');
  await saved(page);
  await bench.killServer();
  await drag(page, page.locator('[data-ball=red-1]'), 60, 20);
  const across = await page.getByLabel('Red 1, across').inputValue();
  expect(across).not.toBe('150');
  await page.getByText('The program is away', { exact: false }).waitFor();
  await bench.startServer();
  await page.getByText('The program is back; all is kept.').waitFor({ timeout: 30_000 });
  await saved(page);
  await page.reload();
  await go(page, 'Table');
  expect(await page.getByLabel('Red 1, across').inputValue()).toBe(across);
  await page.context().close();
});

it('tells the later of two pages, and neither overwrites the other', async () => {
  const context = await bench.context();
  const first = await bench.openIn(context);
  const second = await bench.openIn(context, true);
  for (const page of [first, second]) {
    await go(page, 'Table');
    await saved(page);
  }
  await drag(first, first.locator('[data-ball=red-3]'), 50, 30);
  await saved(first);
  const theirs = await first.getByLabel('Red 3, across').inputValue();

  await second.getByText('Another page changed this', { exact: false }).waitFor();
  await drag(second, second.locator('[data-ball=black]'), -40, 10);
  const mine = await second.getByLabel('Black, up').inputValue();
  await second.getByRole('button', { name: 'Keep mine as a copy' }).click();
  await saved(second);
  expect(await second.getByLabel('Name of this table').inputValue()).toMatch(/, copy$/);
  expect(await second.getByLabel('Black, up').inputValue()).toBe(mine);

  await first.reload();
  await planned(first).catch(() => undefined);
  await openTable(first, 'Evening class');
  await expect.poll(() => first.getByLabel('Red 3, across').inputValue()).toBe(theirs);
  await context.close();
});

it('tells the later of two pages on one plan, and keeps both plans', async () => {
  const context = await bench.context();
  const first = await bench.openIn(context);
  await smallTable(first, 'Two pages');
  await first.getByRole('button', { name: 'Plan the clearance' }).click();
  await planned(first);
  await saved(first);
  const second = await bench.openIn(context, true);
  await planned(second);

  // Each plays its own first shot.
  const keepLower = async (page: typeof first, by: number) => {
    await drag(page, page.locator('[data-part=tip]'), 0, by);
    await page.getByText(/The pot goes .* as planned it goes/).waitFor();
    await page.getByRole('button', { name: 'Keep it and plan on' }).click();
    await page.getByText('What if?').waitFor({ state: 'detached', timeout: 90_000 });
    await planned(page);
  };
  const kept = (page: typeof first) => page.locator('.words .say').first().textContent();
  await keepLower(first, 18);
  await saved(first);
  const theirs = await kept(first);
  await second.getByText('Another page changed this plan', { exact: false }).waitFor();
  await keepLower(second, -14);
  const mine = await kept(second);
  expect(mine).not.toBe(theirs);
  await second.getByRole('button', { name: 'Keep mine as a copy' }).click();
  await saved(second);

  await second.reload();
  await planned(second);
  expect(await kept(second)).toBe(mine);
  await openTable(second, 'Two pages');
  await go(second, 'Plan');
  await planned(second);
  await expect.poll(() => kept(second)).toBe(theirs);
  await context.close();
});

it('keeps the plan so far out of the library when the server is killed while planning', async () => {
  const page = await bench.open({}, true);
  await openTable(page, 'Evening class');
  await go(page, 'Plan');
  await planned(page);
  const before = await page.locator('.whole').textContent();
  await page.keyboard.press('p');
  await page.getByRole('button', { name: 'Stop', exact: true }).waitFor();
  await bench.killServer();
  await page.getByText('The program does not answer', { exact: false }).waitFor();
  await planned(page);
  expect(await page.locator('.whole').textContent()).toBe(before);
  await bench.startServer();
  await page.getByText('The program is back; all is kept.').waitFor({ timeout: 30_000 });
  await page.context().close();
});
