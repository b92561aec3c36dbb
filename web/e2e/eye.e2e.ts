// The player's eye, drawn by three.js in software.
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { Bench, planned } from './bench.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.start({ eye: true });
});
afterAll(() => bench.end());

/** How many colours the canvas shows, as it is seen on the screen. */
async function shades(page: Page): Promise<number> {
  const png = await page.locator('canvas').screenshot();
  return page.evaluate(
    async (source) => {
      const image = new Image();
      image.src = source;
      await image.decode();
      const copy = document.createElement('canvas');
      [copy.width, copy.height] = [image.width, image.height];
      const pen = copy.getContext('2d');
      pen?.drawImage(image, 0, 0);
      const data = pen?.getImageData(0, 0, image.width, image.height).data ?? [];
      const seen = new Set<number>();
      for (let i = 0; i < data.length; i += 4) {
        seen.add(((data[i] ?? 0) << 16) | ((data[i + 1] ?? 0) << 8) | (data[i + 2] ?? 0));
      }
      return seen.size;
    },
    `data:image/png;base64,${png.toString('base64')}`,
  );
}

it('shows lit balls', async () => {
  const page = await bench.open();
  await planned(page);
  await page.getByRole('button', { name: "Player's eye" }).click();
  await page.locator('canvas').waitFor();
  // Lit balls have many shades; an empty drawing has one.
  await expect.poll(() => shades(page)).toBeGreaterThan(100);
  expect(bench.complaints).toEqual([]);
  await page.context().close();
});
