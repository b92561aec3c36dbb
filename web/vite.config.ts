import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';
import { lookStyle } from './look_style.ts';

const lookFile = fileURLToPath(new URL('../look/look.json', import.meta.url));

/** The house's colours and fonts as custom properties: `import 'virtual:look.css'`. */
function look(): Plugin {
  const name = 'virtual:look.css';
  return {
    name: 'look',
    resolveId: (id) => (id === name ? `\0${name}` : null),
    load(id) {
      if (id !== `\0${name}`) return null;
      this.addWatchFile(lookFile);
      return lookStyle(readFileSync(lookFile, 'utf8'));
    },
  };
}

export default defineConfig({
  plugins: [look(), svelte()],
  build: {
    target: 'es2022',
    // The server's Content-Security-Policy allows no inline script.
    modulePreload: { polyfill: false },
    assetsInlineLimit: 0,
    // three.js has a chunk of its own, asked for only when the player's eye opens.
    chunkSizeWarningLimit: 800,
  },
  server: { proxy: { '/api': process.env['AHEAD_SERVER'] ?? 'http://127.0.0.1:8137' } },
  test: { include: ['test/**/*.test.ts'], environment: 'node' },
});
