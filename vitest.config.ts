import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.{ts,tsx}'],
    // Some properties run thousands of cases and the command tests start processes, on machines with two busy cores.
    testTimeout: 120_000,
    hookTimeout: 120_000,
    coverage: {
      provider: 'v8',
      include: ['src/**/*.{ts,tsx}'],
      exclude: ['src/**/index.ts', 'src/cli/**', 'src/io/**'],
      reporter: ['text-summary'],
      reportOnFailure: true,
      thresholds: { lines: 95, branches: 95 },
    },
  },
});
