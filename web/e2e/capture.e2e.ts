// A table taken from a photograph, and the plan drawn back onto it.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import AxeBuilder from '@axe-core/playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { Bench, drag, go, planned, saved } from './bench.ts';

const photo = fileURLToPath(new URL('../../tests/photographs/scenes/16.jpg', import.meta.url));

/** Width and height of a PNG, from its first chunk (ISO/IEC 15948, 11.2.2). */
function sizeOfPng(file: string): [number, number] {
  const bytes = readFileSync(file);
  expect(bytes.subarray(1, 4).toString()).toBe('PNG');
  return [bytes.readUInt32BE(16), bytes.readUInt32BE(20)];
}

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.start();
});
afterAll(() => bench.end());

it('takes a table from a photograph, plans on it, and draws the plan onto the photograph', async () => {
  const page = await bench.open();
  await go(page, 'Table');
  await page.getByRole('button', { name: 'New table' }).click();
  await page.getByRole('button', { name: 'From a photograph' }).click();
  await page.getByLabel('Choose a photograph').setInputFiles(photo);
  await page.getByText('balls found', { exact: false }).waitFor();

  // One corner is dragged off, and the program finds the nose again from there: it is asked with
  // the four corners as they now stand.
  const corner = page.getByLabel('Corner bottom-left', { exact: false });
  const before = Number(await corner.getAttribute('cx'));
  await drag(page, corner, 3, -2);
  const dragged = Number(await corner.getAttribute('cx'));
  expect(Math.abs(dragged - before)).toBeGreaterThan(1);
  const asked = page.waitForRequest((request) => request.url().endsWith('/api/capture'));
  await page.getByRole('button', { name: 'Look again with these corners' }).click();
  const { corners } = (await asked).postDataJSON() as { corners: [number, number][] };
  expect(corners).toHaveLength(4);
  expect(corners[0]?.[0]).toBeCloseTo(dragged, 1);
  const found = page.getByText('balls found', { exact: false });
  await found.waitFor();
  const balls = Number(/(\d+) balls found/.exec((await found.textContent()) ?? '')?.[1]);
  expect(balls).toBeGreaterThan(8);
  expect(Math.abs(Number(await corner.getAttribute('cx')) - before)).toBeLessThan(3);

  // Whatever is doubtful is confirmed; at least one ball of this photograph is.
  const right = page.getByRole('button', { name: 'is right', exact: false });
  const doubtful = await right.count();
  expect(doubtful).toBeGreaterThan(0);
  for (let i = 0; i < doubtful; ++i) await right.first().click();
  expect(await right.count()).toBe(0);

  const axe = await new AxeBuilder({ page }).analyze();
  expect(axe.violations.map((violation) => violation.id)).toEqual([]);

  await page.getByRole('button', { name: 'Lay them on the table' }).click();
  await saved(page);
  await page.getByRole('button', { name: 'Plan the clearance' }).click();
  await planned(page);
  await go(page, 'Table');
  await page.getByRole('button', { name: 'Draw it' }).click();
  await page.getByText('From this camera the cut looks', { exact: false }).waitFor();

  // Something is drawn on the photograph, and most of it is left to be seen.
  const drawing = page.getByLabel('The plan, drawn');
  expect(await drawing.isVisible()).toBe(true);
  const drawn = await drawing.evaluate(async (element) => {
    const image = new Image();
    image.src = element.getAttribute('href') ?? '';
    await image.decode();
    const canvas = new OffscreenCanvas(image.naturalWidth, image.naturalHeight);
    const context = canvas.getContext('2d');
    if (!context) return 0;
    context.drawImage(image, 0, 0);
    const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
    let covered = 0;
    for (let i = 3; i < data.length; i += 4) covered += (data[i] ?? 0) > 128 ? 1 : 0;
    return covered / (data.length / 4);
  });
  expect(drawn).toBeGreaterThan(0.0005);
  expect(drawn).toBeLessThan(0.2);

  const file = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save the picture' }).click();
  expect((await file).suggestedFilename()).toBe('plan-on-photograph.png');
  expect(sizeOfPng(await (await file).path())).toEqual([1280, 960]);
  expect(bench.complaints).toEqual([]);
  await page.context().close();
});
