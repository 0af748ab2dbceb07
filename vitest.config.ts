import { defineConfig } from 'vitest/config'
import { NO_FRAMES } from './tests/pages/noFrames.ts'
import { SlowFirst } from './tests/slowFirst.ts'

export default defineConfig({
  test: {
    include: ['tests/**/*.test.{ts,tsx}'],
    setupFiles: ['tests/quietConsole.ts', 'tests/pseudonymKey.ts'],
    // Of a machine that does other things too; what takes that long on an idle one shows in the report.
    testTimeout: 180_000,
    hookTimeout: 480_000,
    retry: { count: 1, condition: NO_FRAMES },
    // Two cores are all that can be counted on; browser tests start servers and need one of them.
    maxWorkers: 2,
    sequence: { sequencer: SlowFirst },
  },
})
