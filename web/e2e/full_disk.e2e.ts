// A disk that is full under an open page: the page says so, nothing is lost, and it is saved when there
// is room again.
import { afterAll, beforeAll, expect, it } from 'vitest';
import { Bench, drag, go, saved } from './bench.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.start({ disk: true });
});
afterAll(() => bench.end());

it('says that the disk is full, keeps what was done, and saves it later', async () => {
  const page = await bench.open({}, true);
  await go(page, 'Table');
  await saved(page);
  const across = page.getByLabel('Red 1, across');

  bench.fillDisk();
  // The log of the library has some room of its own: so many edits until it is used up.
  const full = page.locator('.keeping', { hasText: 'disk is full' });
  for (let i = 0; i < 60 && (await full.count()) === 0; ++i) {
    await drag(page, page.locator('[data-ball=red-1]'), i % 2 === 0 ? 20 : -14, 4);
    await page.waitForTimeout(350);
  }
  await full.waitFor();
  const mine = await across.inputValue();

  // Another page still finds what was saved last.
  const other = await bench.open({}, true);
  await go(other, 'Table');
  const before = await other.getByLabel('Red 1, across').inputValue();
  expect(before).not.toBe(mine);
  await other.context().close();

  bench.clearDisk();
  await saved(page);
  await page.reload();
  await go(page, 'Table');
  expect(await across.inputValue()).toBe(mine);
  await page.context().close();
});
