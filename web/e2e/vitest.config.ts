import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['e2e/*.e2e.ts'],
    fileParallelism: false,
    testTimeout: 240_000,
    hookTimeout: 60_000,
    reporters: ['verbose'],
  },
});
