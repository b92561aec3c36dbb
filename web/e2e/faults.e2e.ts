// What can go wrong around an open page.
import { afterAll, beforeAll, expect, it } from 'vitest';
import { Bench, drag, go, planned, saved } from './bench.ts';

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
  await go(first, 'Table');
  await first.getByRole('button', { name: 'Evening class', exact: true }).first().click();
  await expect.poll(() => first.getByLabel('Red 3, across').inputValue()).toBe(theirs);
  await context.close();
});
