// What a visit loads, gzipped: everything but the fonts and the player's eye, which brings three.js
// and is asked for only when it opens.
import { readdirSync, readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';

const limit_kb = 250;
const assets = new URL('../dist/assets/', import.meta.url);
const index = readFileSync(new URL('../dist/index.html', import.meta.url));

let bytes = gzipSync(index).length;
for (const name of readdirSync(assets)) {
  if (name.endsWith('.woff2') || name.startsWith('EyeView')) continue;
  bytes += gzipSync(readFileSync(new URL(name, assets))).length;
}
const kb = bytes / 1000;
console.log(`The page without three.js and fonts: ${kb.toFixed(1)} kB gzipped, of ${limit_kb} kB.`);
if (kb > limit_kb) process.exit(1);
