// The same evening by keyboard alone: not one click.
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import { Bench, planned, saved } from './bench.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.start();
});
afterAll(() => bench.end());

/** Presses Tab until the focus is on what the selector names. */
async function tabTo(page: Page, selector: string): Promise<void> {
  for (let i = 0; i < 200; ++i) {
    await page.keyboard.press('Tab');
    if (await page.evaluate((s) => document.activeElement?.matches(s) ?? false, selector)) return;
  }
  throw new Error(`Tab never reached ${selector}`);
}

async function press(page: Page, ...keys: string[]): Promise<void> {
  for (const key of keys) await page.keyboard.press(key);
}

it('sets, reads, plans, changes, plays, plans again and undoes', async () => {
  const page = await bench.open();
  await planned(page);

  await press(page, '1');
  for (const ball of ['red 1', 'red 3', 'red 4', 'red 5', 'red 6']) {
    await tabTo(page, `[data-ball="${ball.replace(' ', '-')}"]`);
    await press(page, 'Delete');
  }
  await tabTo(page, '[data-ball=red-2]');
  for (let i = 0; i < 5; ++i) await press(page, 'Shift+ArrowLeft');
  const moved = await page.getByLabel('Red 2, up').inputValue();
  expect(moved).not.toBe('250');

  await press(page, '2');
  await page.getByRole('heading', { name: 'The reading' }).waitFor();

  await press(page, 'p');
  await planned(page);
  expect(await page.locator('.frame').count()).toBe(2);

  // What if: the tip a little lower, then kept.
  await tabTo(page, '[data-part=tip]');
  for (let i = 0; i < 6; ++i) await press(page, 'ArrowDown');
  await page.getByText(/The pot goes .* as planned it goes/).waitFor();
  await press(page, 'k');
  await page.getByText('What if?').waitFor({ state: 'detached', timeout: 90_000 });
  await planned(page);

  // Another leave.
  await tabTo(page, '[data-part=leave]');
  await press(page, 'Shift+ArrowRight');
  await page.getByRole('heading', { name: 'Strikes for that leave' }).waitFor();
  await page.getByText('Looking…').waitFor({ state: 'detached', timeout: 60_000 });
  await press(page, 'Escape');
  await page
    .getByRole('heading', { name: 'Strikes for that leave' })
    .waitFor({ state: 'detached' });

  // The motion, by its keys.
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  await press(page, ' ', ' ', '.');
  await page.getByText(/\d s: /).waitFor();
  await press(page, 'Escape');

  // What really happened.
  await press(page, 'h');
  await tabTo(page, '[data-ball=cue]');
  for (let i = 0; i < 6; ++i) await press(page, 'Shift+ArrowRight');
  await tabTo(page, 'button.main');
  await press(page, 'Enter');
  await page.getByRole('heading', { name: 'From here' }).waitFor({ timeout: 90_000 });
  await tabTo(page, '.card button.main');
  await press(page, 'Enter');
  await planned(page);
  expect(await page.locator('.frame').count()).toBe(1);
  await saved(page);

  await page.reload();
  await planned(page);
  expect(await page.locator('.frame').count()).toBe(1);

  await press(page, '1');
  await tabTo(page, '[data-ball=black]');
  const before = await page.getByLabel('Black, up').inputValue();
  await press(page, 'ArrowUp', 'ArrowRight', 'm');
  await press(page, 'Control+z', 'Control+z', 'Control+z');
  expect(await page.getByLabel('Black, up').inputValue()).toBe(before);

  await press(page, '?');
  await page.getByRole('dialog').waitFor();
  await press(page, 'Escape');
  expect(bench.complaints).toEqual([]);
  await page.context().close();
});

it('always shows where the focus is', async () => {
  const page = await bench.open();
  await planned(page);
  for (let i = 0; i < 45; ++i) {
    await page.keyboard.press('Tab');
    const visible = await page.evaluate(() => {
      const at = document.activeElement;
      if (!at || at === document.body) return true;
      const ring = at.querySelector('.focus');
      const style = getComputedStyle(ring ?? at);
      return ring ? style.stroke !== 'none' : style.outlineStyle !== 'none';
    });
    expect(
      visible,
      await page.evaluate(() => document.activeElement?.outerHTML.slice(0, 120)),
    ).toBe(true);
  }
  await page.context().close();
});
