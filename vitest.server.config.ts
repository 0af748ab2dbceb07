import { configDefaults, defineConfig } from 'vitest/config'

/**
 * The tests that use a database, run on PostgreSQL: `npx tsx .ci/server.ts npx vitest run --config vitest.server.config.ts`. What has no database in it
 * runs in vitest.config.ts alone: a second time it would show nothing.
 */

const WITH_A_DATABASE = [
  'tests/store/**/*.test.ts',
  'tests/usecases/**/*.test.ts',
  'tests/cli/**/*.test.ts',
  'tests/faults/**/*.test.ts',
  'tests/badInput/**/*.test.ts',
  'tests/published/fhirSummary.test.ts',
  'tests/parts/courseChange.test.tsx',
  'tests/parts/paper.test.tsx',
]

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
  // Copies of a file, and a file put in the place of another: a server is backed up by its own means.
  'tests/cli/backup.test.ts',
  'tests/cli/restore.test.ts',
  'tests/faults/backup.test.ts',
  // Faults put under a file: its disk full, its writes failing, its power cut, its pages damaged, another file in its place.
  'tests/faults/diskFull.test.ts',
  'tests/faults/ioErrors.test.ts',
  'tests/faults/powerCut.test.ts',
  'tests/faults/wrongFile.test.ts',
  // The limits of time of reading a file: one of them has 150 000 rows refused, and the server is told of each by itself, which takes its own time.
  'tests/badInput/limits.test.ts',
  // A law over the bytes of files, six hundred databases long: what it asks of a store the fixtures ask on the server too. By hand with FUZZ_RUNS=10.
  'tests/badInput/law.test.ts',
  // A program killed at the n-th write or flush of its file: the writes are the server's own, and it is killed by nobody.
  'tests/faults/killed.test.ts',
]

const WITHOUT_A_DATABASE = [
  'tests/cli/serve.test.ts',
  'tests/cli/listener.test.ts',
  'tests/faults/largeFile.test.ts',
  'tests/usecases/accounts/choice.test.ts',
  'tests/usecases/backup/seal.test.ts',
  'tests/usecases/export/csvText.test.ts',
  'tests/usecases/followup/rowsToLeave.test.ts',
  'tests/usecases/list/dueOn.test.ts',
  'tests/usecases/pseudonyms/starting.test.ts',
]

export default defineConfig({
  test: {
    include: WITH_A_DATABASE,
    exclude: [...configDefaults.exclude, ...FILES_OF_SQLITE, ...WITHOUT_A_DATABASE],
    setupFiles: ['tests/quietConsole.ts', 'tests/pseudonymKey.ts'],
    testTimeout: 120_000,
    hookTimeout: 240_000,
    // One after the other in the same process, so that the databases all others are copied from are made once and not once a file.
    isolate: false,
    // The server takes its part of the two cores.
    maxWorkers: 2,
  },
})
