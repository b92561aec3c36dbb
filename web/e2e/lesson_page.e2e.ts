// The file that a lesson sends to a pupil: valid HTML, and whole without a network.
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { HtmlValidate, StaticConfigLoader } from 'html-validate';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { launched, program } from './bench.ts';

const fromHere = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const pictures = fromHere('../../out/page');
mkdirSync(pictures, { recursive: true });
const folder = mkdtempSync(join(tmpdir(), 'ahead-lesson-'));
const file = join(folder, 'clearance.html');

let browser: Browser;
beforeAll(async () => {
  const plan = fromHere('../../examples/after/plan.json');
  execFileSync(program, ['lesson', plan, '--out', folder, '--what', 'page']);
  browser = await launched();
});
afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true });
});

async function faults(html: string): Promise<string[]> {
  const validator = new HtmlValidate(
    new StaticConfigLoader({ extends: ['html-validate:recommended'] }),
  );
  const report = await validator.validateString(html);
  return report.results.flatMap((result) =>
    result.messages.map((each) => `${each.line}:${each.column} ${each.message}`),
  );
}

it('is valid HTML', async () => {
  const html = readFileSync(file, 'utf8');
  expect(await faults(html)).toEqual([]);
  expect(await faults(html.replace('</main>', ''))).not.toEqual([]);
});

for (const viewport of [
  { width: 1440, height: 900 },
  { width: 820, height: 1180 },
]) {
  it(`plays a shot offline at ${viewport.width} x ${viewport.height}`, async () => {
    const context = await browser.newContext({ viewport, offline: true });
    const page = await context.newPage();
    const complaints: string[] = [];
    page.on('console', (message) => complaints.push(message.text()));
    page.on('pageerror', (error) => complaints.push(String(error)));
    page.on('request', (request) => {
      if (!/^(file|data):/.test(request.url())) complaints.push(`asked ${request.url()}`);
    });
    await page.goto(pathToFileURL(file).href);
    await page.screenshot({ path: `${pictures}/lesson-whole-${viewport.width}.png` });

    await page.getByRole('link', { name: /^2\. / }).click();
    const section = page.locator('#shot-2');
    const cue = section.locator('.moves').first();
    const start = await cue.getAttribute('transform');
    await section.getByRole('button', { name: 'Play' }).click();
    await section.getByRole('button', { name: 'Again' }).waitFor({ timeout: 30_000 });
    expect(await cue.getAttribute('transform')).not.toBe(start);
    await page.screenshot({ path: `${pictures}/lesson-shot-${viewport.width}.png` });
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(wide, 'wider than its window').toBeLessThanOrEqual(viewport.width);
    expect(complaints).toEqual([]);
    await context.close();
  });
}
