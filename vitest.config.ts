import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    include: ['tests/**/*.test.{ts,tsx}'],
    setupFiles: ['tests/quietConsole.ts', 'tests/pseudonymKey.ts'],
    testTimeout: 60_000,
    hookTimeout: 240_000,
    // Two cores are all that can be counted on; browser tests start servers and need one of them.
    maxWorkers: 2,
  },
})
