// A server of its own with an empty library, and a browser that looks at it.
import { spawn, type ChildProcess } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  chromium,
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  type Locator,
  type Page,
} from 'playwright-core';

/** The program that was built. */
export const program =
  process.env['AHEAD'] ?? fileURLToPath(new URL('../../build/check/cli/ahead', import.meta.url));
const files = fileURLToPath(new URL('../dist', import.meta.url));

/** `eye` lets the browser draw in three dimensions, in software: slow for all else. */
export function launched(eye = false): Promise<Browser> {
  return chromium.launch({
    executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium',
    args: [
      '--no-sandbox',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      ...(eye
        ? ['--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader']
        : ['--disable-gpu']),
    ],
  });
}

/** Mounts a file system of 2 MB on the data folder, which the server alone sees, and serves there. */
const small_disk = 'mount -t tmpfs -o size=2m tmpfs "$1" && shift && exec "$@"';

export class Bench {
  readonly #data = mkdtempSync(join(tmpdir(), 'ahead-page-'));
  #server: ChildProcess | null = null;
  #browser: Browser | null = null;
  #port = 0;
  /** Errors of every page's console, and requests to anyone but the server. */
  readonly complaints: string[] = [];

  readonly #disk: boolean;

  private constructor(disk: boolean) {
    this.#disk = disk;
  }

  /** `disk`: the library lies on a small file system of its own, which the test can fill. */
  static async start({ eye = false, disk = false } = {}): Promise<Bench> {
    const bench = new Bench(disk);
    await bench.startServer();
    bench.#browser = await launched(eye);
    return bench;
  }

  get address(): string {
    return `http://127.0.0.1:${this.#port}/`;
  }

  get browser(): Browser {
    if (!this.#browser) throw new Error('the browser has not been started');
    return this.#browser;
  }

  /** On the port that it had before, if any: an open page looks for it there. */
  async startServer(): Promise<void> {
    const serve = ['serve', '--port', String(this.#port), '--data', this.#data, '--page', files];
    const [command, words] = this.#disk
      ? ['unshare', ['-rm', 'sh', '-c', small_disk, 'sh', this.#data, program, ...serve]]
      : [program, serve];
    const server = spawn(command as string, words as string[], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    this.#server = server;
    this.#port = await new Promise<number>((found, failed) => {
      let said = '';
      server.stdout.on('data', (piece: Buffer) => {
        said += piece.toString();
        const port = /127\.0\.0\.1:(\d+)/.exec(said)?.[1];
        if (port) found(Number(port));
      });
      server.once('exit', (code) => failed(new Error(`ahead serve ended with ${code}: ${said}`)));
      server.once('error', failed);
    });
  }

  async killServer(): Promise<void> {
    const server = this.#server;
    if (!server || server.exitCode !== null || server.signalCode !== null) return;
    const gone = new Promise((done) => server.once('exit', done));
    server.kill('SIGKILL');
    await gone;
  }

  /** A file on the small file system, as seen from outside of the server's namespace. */
  get #ballast(): string {
    return `/proc/${this.#server?.pid}/root${this.#data}/ballast`;
  }

  fillDisk(): void {
    const file = openSync(this.#ballast, 'w');
    for (const size of [4096, 512, 1]) {
      try {
        for (;;) writeSync(file, Buffer.alloc(size));
      } catch {
        // Full for pieces of this size.
      }
    }
    closeSync(file);
  }

  clearDisk(): void {
    rmSync(this.#ballast);
  }

  async context(options: BrowserContextOptions = {}): Promise<BrowserContext> {
    return this.browser.newContext({ viewport: { width: 1440, height: 900 }, ...options });
  }

  /** A page that has opened; `expectErrors` for a server that is about to be killed. */
  async open(options: BrowserContextOptions = {}, expectErrors = false): Promise<Page> {
    const context = await this.context(options);
    return this.openIn(context, expectErrors);
  }

  async openIn(context: BrowserContext, expectErrors = false): Promise<Page> {
    const page = await context.newPage();
    // A step that never comes is named, before the whole test runs out of time.
    page.setDefaultTimeout(45_000);
    page.on('request', (request) => {
      const url = new URL(request.url());
      if (
        url.protocol !== 'blob:' &&
        url.protocol !== 'data:' &&
        url.origin + '/' !== this.address
      ) {
        this.complaints.push(`asked ${request.url()}`);
      }
    });
    page.on('response', (response) => {
      if (response.status() < 400 || expectErrors) return;
      void response.text().then(
        (text) => this.complaints.push(`${response.url()}: ${text}`),
        () => undefined,
      );
    });
    page.on('pageerror', (error) => this.complaints.push(String(error)));
    page.on('console', (message) => {
      if (message.type() === 'error' && !expectErrors) this.complaints.push(message.text());
    });
    await page.goto(this.address);
    await page.getByRole('navigation', { name: 'Places' }).waitFor();
    return page;
  }

  async end(): Promise<void> {
    await this.#browser?.close();
    await this.killServer();
    rmSync(this.#data, { recursive: true, force: true });
  }
}

export async function go(page: Page, place: string): Promise<void> {
  await page
    .getByRole('navigation', { name: 'Places' })
    .getByRole('button', { name: place })
    .click();
}

export async function centre(mark: Locator): Promise<{ x: number; y: number }> {
  const box = await mark.boundingBox();
  if (!box) throw new Error('the mark is not on the page');
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

/** Takes a mark with the mouse and drags it by so many pixels. */
export async function drag(page: Page, mark: Locator, dx: number, dy: number): Promise<void> {
  const { x, y } = await centre(mark);
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + dx, y + dy, { steps: 6 });
  await page.mouse.up();
}

/** Opens a table of the library, and waits until it is on the page: a key pressed before it came
 * would be about the table that was there. */
export async function openTable(page: Page, name: string): Promise<void> {
  await go(page, 'Table');
  const table = page.getByRole('button', { name, exact: true }).first();
  await table.click();
  await table.and(page.locator('[aria-current=true]')).waitFor();
}

/** Waits until every edit is in the library. */
export async function saved(page: Page): Promise<void> {
  await page.waitForTimeout(300);
  // The whole text: a refusal may say what was saved before.
  await page.locator('.keeping', { hasText: /^\s*Saved\s*$/ }).waitFor();
}

/** A small table through its fields: quick to plan. */
export async function smallTable(page: Page, name: string): Promise<void> {
  await go(page, 'Table');
  await page.getByRole('button', { name: 'New table' }).click();
  const field = page.getByLabel('Name of this table');
  await field.fill(name);
  await field.press('Enter');
  await page.getByLabel('To play').selectOption('red');
  const places: [string, number, number][] = [
    ['cue ball', 430, 620],
    ['red 1', 700, 1080],
    ['black', 300, 1500],
  ];
  for (const [ball, across, up] of places) {
    await page.getByRole('button', { name: `Put ${ball} on the table` }).click();
    await page.getByLabel(new RegExp(`${ball}, across`, 'i')).fill(String(across));
    await page.getByLabel(new RegExp(`${ball}, up`, 'i')).fill(String(up));
    await page.getByLabel(new RegExp(`${ball}, up`, 'i')).press('Enter');
  }
}

export async function planned(page: Page): Promise<void> {
  await page
    .getByRole('button', { name: 'Stop', exact: true })
    .waitFor({ state: 'detached', timeout: 180_000 });
  await page.getByRole('list', { name: 'The plan, shot by shot' }).waitFor({ timeout: 90_000 });
}

/** Where a place of the table, in mm, is on the screen. */
export async function onScreen(
  page: Page,
  across: number,
  up: number,
): Promise<{ x: number; y: number }> {
  return page.evaluate(
    ([x = 0, y = 0]) => {
      const svg = document.querySelector<SVGSVGElement>('main.table .room svg');
      const matrix = svg?.getScreenCTM();
      if (!svg || !matrix) throw new Error('there is no table on the page');
      const { width, height } = svg.viewBox.baseVal;
      // The drawing has 92 mm of room beyond the bed on one side and 116 on the other.
      const length = Math.max(width, height) - 208;
      const [dx, dy] = height > width ? [x, length - y] : [y, x];
      const at = new DOMPoint(dx, dy).matrixTransform(matrix);
      return { x: at.x, y: at.y };
    },
    [across, up],
  );
}

/** Takes what lies at one place of the table and drags it to another, in mm. */
export async function dragOnTable(
  page: Page,
  from: readonly [number, number],
  to: readonly [number, number],
): Promise<void> {
  const a = await onScreen(page, ...from);
  const b = await onScreen(page, ...to);
  await page.mouse.move(a.x, a.y);
  await page.mouse.down();
  await page.mouse.move(b.x, b.y, { steps: 8 });
  await page.mouse.up();
}
