import { copyDatabase } from '../copy/copyDatabase.ts'
import { migrate } from '../migrate/migrate.ts'
import { migrationsDirectory, readMigrations } from '../migrate/migrations.ts'
import { readerOf } from '../reader.ts'
import { connectFile } from '../sqlite/connectFile.ts'
import type { Store } from '../store.ts'
import { untilFree } from '../write/busy.ts'
import { databasePath, ensureDatabaseFile } from './databaseFile.ts'
import { openedHere } from './openHere.ts'
import type { OpenOptions } from './openOptions.ts'
import { requireSound } from './ownFile.ts'
import { pageReads } from './pageReads.ts'
import { setPragmas } from './pragmas.ts'
import { changingOn, PATIENCE_MS } from './storeOn.ts'

// A reader in WAL mode waits only while the file is being recovered or checkpointed; the writer's waiting is done without SQLite's.
const READER_WAIT_MS = 5_000
const WRITER_WAIT_MS = 0

/** Opens a database in a file, made and migrated where missing. Throws as `openStore` says, and SQLite's own errors. */
export async function openFile(
  url: string,
  { patienceMs = PATIENCE_MS, migrations = migrationsDirectory('sqlite'), checked = false }: OpenOptions,
): Promise<Store> {
  const path = databasePath(url)
  const leave = await openedHere(path, () => ensureDatabaseFile(path))
  try {
    return await opened(path, { patienceMs, migrations, checked }, leave)
  } catch (error) {
    leave()
    throw error
  }
}

async function opened(path: string, { patienceMs, migrations, checked }: Required<OpenOptions>, leave: () => void): Promise<Store> {
  await migrate(path, readMigrations(migrations), patienceMs)
  const writing = connectFile(path, { reading: false, waitMs: WRITER_WAIT_MS })
  await untilFree(() => setPragmas(writing.db, WRITER_WAIT_MS), patienceMs)
  const reading = connectFile(path, { reading: true, waitMs: READER_WAIT_MS })
  setPragmas(reading.db, READER_WAIT_MS)
  if (checked) requireSound(reading.db)
  const prisma = pageReads(path, READER_WAIT_MS)
  const { writer, ...changing } = changingOn(writing, patienceMs)
  return {
    ...changing,
    url: `file:${path}`,
    path,
    prisma,
    reader: readerOf(reading),
    copyTo: (to) => copyDatabase(path, to),
    async close() {
      await prisma.$disconnect()
      // The last connection to close moves the write-ahead log into the file; one that only reads cannot.
      reading.close()
      await writer.close()
      leave()
    },
  }
}
