// A table taken from a photograph, and the plan drawn back onto it.
import { fileURLToPath } from 'node:url';
import AxeBuilder from '@axe-core/playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { Bench, drag, go, planned, saved } from './bench.ts';

const photo = fileURLToPath(new URL('../../tests/photographs/scenes/16.jpg', import.meta.url));

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

  // One corner is dragged off, and the program finds the nose again from there.
  const corner = page.getByLabel('Corner bottom-left', { exact: false });
  const before = await corner.getAttribute('cx');
  await drag(page, corner, 3, -2);
  expect(await corner.getAttribute('cx')).not.toBe(before);
  await page.getByRole('button', { name: 'Look again with these corners' }).click();
  await page.getByText('balls found', { exact: false }).waitFor();
  expect(Math.abs(Number(await corner.getAttribute('cx')) - Number(before))).toBeLessThan(3);

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
  const file = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save the picture' }).click();
  expect((await file).suggestedFilename()).toBe('plan-on-photograph.png');
  expect(bench.complaints).toEqual([]);
  await page.context().close();
});
