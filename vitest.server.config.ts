import { configDefaults, defineConfig } from 'vitest/config'

/**
 * The tests that use a database, run on PostgreSQL: `npx tsx .ci/server.ts npx vitest run --config vitest.server.config.ts`. What has no database in it
 * runs in vitest.config.ts alone: a second time it would show nothing.
 */

/** About a file of SQLite itself, or about what a server is not asked to do; they run on SQLite alone. */
const FILES_OF_SQLITE = [
  // Migrations of a file as earlier versions left it: on the server there is no version before the first.
  'tests/store/migrate.test.ts',
  'tests/store/migrateDecisions.test.ts',
  'tests/store/migrateHeld.test.ts',
  'tests/store/migrateResults.test.ts',
  // The tables as SQLite tells of them, and the generated client, which reads files alone; sameSchema.test.ts compares the server's with them.
  'tests/store/schema.test.ts',
  // One file opened twice by one program: locks of a file.
  'tests/store/openTwice.test.ts',
]

export default defineConfig({
  test: {
    include: ['tests/store/**/*.test.ts'],
    exclude: [...configDefaults.exclude, ...FILES_OF_SQLITE],
    setupFiles: ['tests/quietConsole.ts', 'tests/pseudonymKey.ts'],
    testTimeout: 120_000,
    hookTimeout: 240_000,
    // The server needs one of the two cores.
    maxWorkers: 2,
  },
})
