// What a hand can do on the table and about a shot, one by one.
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import { Bench, centre, drag, dragOnTable, onScreen, planned, smallTable } from './bench.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.start();
});
afterAll(() => bench.end());

async function placeOf(page: Page, ball: string): Promise<[number, number]> {
  const read = async (axis: string) =>
    Number(await page.getByLabel(new RegExp(`^${ball}, ${axis}`, 'i')).inputValue());
  return [await read('across'), await read('up')];
}

it('draws a dragged ball to cushions, spots, the baulk line and neighbours; Alt sets it free', async () => {
  const page = await bench.open();
  await smallTable(page, 'By hand');
  // An English table of 7 ft: 914 by 1829 mm, balls of 50.8 mm, a white of 47.6 mm.
  await dragOnTable(page, [700, 1080], [20, 900]);
  expect((await placeOf(page, 'red 1'))[0]).toBeCloseTo(25.4, 1);
  await dragOnTable(page, [25.4, (await placeOf(page, 'red 1'))[1]], [600, 900]);
  await page.keyboard.down('Alt');
  const [x, y] = await placeOf(page, 'red 1');
  await dragOnTable(page, [x, y], [32, 900]);
  await page.keyboard.up('Alt');
  expect((await placeOf(page, 'red 1'))[0]).toBeGreaterThan(28);

  await dragOnTable(page, [300, 1500], [460, 1366]);
  expect(await placeOf(page, 'black')).toEqual([457.2, 1371.6]);
  await dragOnTable(page, [430, 620], [500, 362]);
  expect((await placeOf(page, 'cue ball'))[1]).toBeCloseTo(365.8, 1);

  // Nearly touching becomes touching, and one on top of another does not stay there.
  const red = await placeOf(page, 'red 1');
  await dragOnTable(page, red, [457.2 + 53, 1371.6]);
  const [a, b] = await placeOf(page, 'red 1');
  const apart = Math.hypot(a - 457.2, b - 1371.6);
  expect(apart).toBeGreaterThanOrEqual(50.8);
  expect(apart).toBeLessThan(51.2);
  await page.getByText('touching black').waitFor();
  await dragOnTable(page, [a, b], [457.2, 1371.6]);
  const [c, d] = await placeOf(page, 'red 1');
  expect(Math.hypot(c - 457.2, d - 1371.6)).toBeGreaterThanOrEqual(50.8);
  await page.context().close();
});

it('mirrors the table, and shows and takes inches', async () => {
  const page = await bench.open();
  await smallTable(page, 'In inches');
  const [before] = await placeOf(page, 'red 1');
  await page.getByRole('button', { name: 'Mirror' }).click();
  const [after] = await placeOf(page, 'red 1');
  expect(before + after).toBeCloseTo(914.4, 1);
  await page.getByRole('button', { name: 'Lengths in millimetres' }).click();
  expect((await placeOf(page, 'red 1'))[0]).toBeCloseTo(after / 25.4, 2);
  const field = page.getByLabel(/^red 1, across/i);
  await field.fill('10');
  await field.press('Enter');
  await page.getByRole('button', { name: 'Lengths in inches' }).click();
  expect((await placeOf(page, 'red 1'))[0]).toBeCloseTo(254, 1);
  await page.context().close();
});

it('asks for a leave by dragging the end of the path, and by drawing a region', async () => {
  const page = await bench.open();
  await planned(page);
  await drag(page, page.locator('[data-part=leave]'), 50, 24);
  await page.getByRole('heading', { name: 'Strikes for that leave' }).waitFor();
  await page.getByText('Looking…').waitFor({ state: 'detached', timeout: 60_000 });
  await page.locator('circle.wanted').waitFor();
  // A strike of the list draws its path beside the plan's, and is tried when pressed.
  const strike = page.locator('.rival', { hasText: 'stops there' }).first();
  await strike.hover();
  await page.locator('g.other .ribbon.of-cue').first().waitFor();
  await strike.click();
  await page.getByText(/The pot goes .* as planned it goes/).waitFor();
  await page.keyboard.press('Escape');
  await page.locator('circle.wanted').waitFor({ state: 'detached' });
  await page.getByRole('button', { name: 'Back to the plan' }).click();

  await page.getByRole('button', { name: 'Draw a leave' }).click();
  await page.getByText('Draw round the place').waitFor();
  const { x, y } = await centre(page.locator('[data-part=leave]'));
  await page.mouse.move(x - 40, y - 40);
  await page.mouse.down();
  for (const [dx, dy] of [
    [40, -40],
    [50, 40],
    [-40, 46],
  ] as const) {
    await page.mouse.move(x + dx, y + dy, { steps: 5 });
  }
  await page.mouse.up();
  await page.locator('path.wanted').waitFor();
  await page.getByRole('heading', { name: 'Strikes for that leave' }).waitFor();
  await page.getByText('Looking…').waitFor({ state: 'detached', timeout: 60_000 });
  expect(await page.locator('.rival', { hasText: 'stops there' }).count()).toBeGreaterThan(0);
  await page.getByRole('button', { name: 'put away' }).click();
  await page.locator('path.wanted').waitFor({ state: 'detached' });
  await page.context().close();
});

it("draws a rival's path beside the plan's while the pointer or the focus is on it", async () => {
  const page = await bench.open();
  await planned(page);
  const rival = page
    .locator('section', { hasText: 'The next best idea' })
    .locator('button.rival')
    .first();
  const others = page.locator('g.other .ribbon');
  expect(await others.count()).toBe(0);
  await rival.hover();
  await others.first().waitFor();
  await page.mouse.move(5, 5);
  await others.first().waitFor({ state: 'detached' });
  await rival.focus();
  await others.first().waitFor();
  await page.context().close();
});

it('asks about the pace and the butt by their sliders, and about a ball that lies elsewhere', async () => {
  const page = await bench.open();
  await planned(page);
  const speed = page.getByRole('slider', { name: 'Cue speed' });
  await speed.focus();
  for (let i = 0; i < 4; ++i) await page.keyboard.press('ArrowRight');
  await page.getByText(/The pot goes .* as planned it goes/).waitFor();
  await page.getByRole('button', { name: 'Back to the plan' }).click();
  const butt = page.getByRole('slider', { name: 'Butt raised' });
  await butt.focus();
  for (let i = 0; i < 6; ++i) await page.keyboard.press('ArrowRight');
  await page.getByText(/The pot goes .* as planned it goes/).waitFor();
  await page.getByRole('button', { name: 'Back to the plan' }).click();

  const red = page.locator('[data-ball=yellow-1]');
  await drag(page, red, 40, 20);
  await page.getByText('the plan cannot take it over', { exact: false }).waitFor();
  expect(await page.getByRole('button', { name: 'Keep it and plan on' }).isDisabled()).toBe(true);
  await page.keyboard.press('Escape');
  await page.getByText('What if?').waitFor({ state: 'detached' });
  await page.context().close();
});

it('plays the motion by event and along the speed curve', async () => {
  const page = await bench.open();
  await planned(page);
  await page.getByRole('button', { name: 'Watch it' }).click();
  await page.getByRole('button', { name: 'Pause' }).click();
  const said = page.locator('.said');
  const time = page.getByRole('slider', { name: /Time in the shot/ });
  await time.fill('0');
  await page.getByRole('button', { name: 'On to the next event' }).click();
  const first = await said.textContent();
  expect(first).toMatch(/s: /);
  await page.getByRole('button', { name: 'On to the next event' }).click();
  expect(await said.textContent()).not.toBe(first);
  await page.getByRole('button', { name: 'Back to the event before' }).click();
  expect(await said.textContent()).toBe(first);
  // Along the curve the cue ball moves.
  const ball = page.locator('main .room svg .ball.cue:not(.ghost)');
  await time.fill('0.3');
  const early = await ball.boundingBox();
  await time.fill('1.2');
  expect(await said.textContent()).toMatch(/^\s*1\.20 s/);
  expect(await ball.boundingBox()).not.toEqual(early);
  await page.keyboard.press('Escape');
  await page.getByRole('list', { name: 'The plan, shot by shot' }).waitFor();
  await page.context().close();
});

it('asks nothing of a press that moves nothing', async () => {
  const page = await bench.open();
  await planned(page);
  await page.locator('[data-ball=cue]').click();
  await page.locator('[data-part=leave]').click();
  await page.waitForTimeout(300);
  expect(await page.getByText('What if?').count()).toBe(0);
  expect(await page.getByRole('heading', { name: 'Strikes for that leave' }).count()).toBe(0);
  const { x, y } = await onScreen(page, 100, 100);
  await page.mouse.click(x, y);
  expect(await page.getByRole('button', { name: 'Undo' }).isEnabled()).toBe(false);
  await page.context().close();
});

it('never complained', () => {
  expect(bench.complaints).toEqual([]);
});
