// Every place in both themes and both sizes: no serious fault of accessibility, and a picture of
// each in out/page, to be looked at.
import AxeBuilder from '@axe-core/playwright';
import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { Bench, go, planned } from './bench.ts';

const pictures = fileURLToPath(new URL('../../out/page', import.meta.url));
mkdirSync(pictures, { recursive: true });

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.start();
});
afterAll(() => bench.end());

const sizes = [
  { width: 1440, height: 900 },
  { width: 820, height: 1180 },
];

for (const colorScheme of ['light', 'dark'] as const) {
  for (const viewport of sizes) {
    it(`reads well at ${viewport.width} x ${viewport.height}, ${colorScheme}`, async () => {
      const page = await bench.open({ viewport, colorScheme, reducedMotion: 'reduce' });
      await planned(page);
      for (const place of ['Plan', 'Table', 'Read', 'Explain', 'Practise']) {
        await go(page, place);
        if (place === 'Read') await page.getByRole('heading', { name: 'The reading' }).waitFor();
        if (place === 'Explain') await page.getByText('can go wrong').first().waitFor();
        await page.waitForTimeout(250);
        await page.screenshot({
          path: `${pictures}/${place.toLowerCase()}-${viewport.width}-${colorScheme}.png`,
        });
        const { violations } = await new AxeBuilder({ page }).analyze();
        const serious = violations
          .filter((each) => each.impact === 'serious' || each.impact === 'critical')
          .map((each) => `${place}: ${each.id}: ${each.nodes[0]?.html.slice(0, 160) ?? ''}`);
        expect(serious).toEqual([]);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth);
        expect(wide, `${place} is wider than its window`).toBeLessThanOrEqual(viewport.width);
      }
      await page.context().close();
    });
  }
}

it('prints the explanation on its pages, without the bar and the buttons', async () => {
  const page = await bench.open({ colorScheme: 'dark' });
  await planned(page);
  await go(page, 'Explain');
  await page.getByText('can go wrong').first().waitFor();
  await page.pdf({
    path: `${pictures}/explain.pdf`,
    format: 'A4',
    preferCSSPageSize: true,
    printBackground: true,
  });
  await page.emulateMedia({ media: 'print' });
  expect(await page.getByRole('navigation', { name: 'Places' }).isVisible()).toBe(false);
  expect(await page.getByRole('button', { name: 'Make the lesson' }).isVisible()).toBe(false);
  expect(await page.locator('article').count()).toBe(7);
  await page.context().close();
});

it('shows the best plan so far', async () => {
  const page = await bench.open({ reducedMotion: 'reduce' });
  await planned(page);
  await page.keyboard.press('p');
  await page.getByRole('heading', { name: 'The best plan so far' }).waitFor({ timeout: 90_000 });
  await page.screenshot({ path: `${pictures}/so-far-1440-light.png` });
  await page.context().close();
});

it('never complained', () => {
  expect(bench.complaints).toEqual([]);
});
