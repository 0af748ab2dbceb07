import { connect } from '../connection.ts'
import { copyDatabase } from '../copy/copyDatabase.ts'
import { migrate } from '../migrate/migrate.ts'
import { migrationsDirectory, readMigrations } from '../migrate/migrations.ts'
import { readerOf } from '../reader.ts'
import type { Store } from '../store.ts'
import { txOf } from '../tx.ts'
import { touchSession } from '../write/accounts.ts'
import { appendTrail } from '../write/appendTrail.ts'
import { untilFree } from '../write/busy.ts'
import { writeProbe } from '../write/probe.ts'
import { writerOn } from '../write/writer.ts'
import { databasePath, ensureDatabaseFile } from './databaseFile.ts'
import { faultSays } from './faultSays.ts'
import { NotOpened } from './notOpened.ts'
import { openedHere } from './openHere.ts'
import { requireSound } from './ownFile.ts'
import { pageReads } from './pageReads.ts'
import { setPragmas } from './pragmas.ts'

export interface OpenOptions {
  /** How long another program's write is waited for; 15 seconds unless said. */
  readonly patienceMs?: number
  /** Reads the whole file before anything is served from it (`quick_check`); left out unless said. */
  readonly checked?: boolean
  /** Prisma's layout; `prisma/migrations` of the directory the program runs in unless said. */
  readonly migrations?: string
}

const PATIENCE_MS = 15_000
// A reader in WAL mode waits only while the file is being recovered or checkpointed; the writer's waiting is done without SQLite's.
const READER_WAIT_MS = 5_000
const WRITER_WAIT_MS = 0

/**
 * Opens the database `url` names (`file:./var/lowmark.db`, relative to where the program runs), made and migrated where missing.
 * Throws NotOpened, with what to do, when it cannot be opened as safely as it must; StoreBusy when another program keeps it locked.
 */
export async function openStore(url: string, options: OpenOptions = {}): Promise<Store> {
  try {
    return await openFile(databasePath(url), options)
  } catch (error) {
    const says = faultSays(error)
    throw says === null ? error : new NotOpened(`The database was not opened: ${says}`)
  }
}

async function openFile(
  path: string,
  { patienceMs = PATIENCE_MS, migrations = migrationsDirectory(), checked = false }: OpenOptions,
): Promise<Store> {
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
  const writing = connect(path, { reading: false, waitMs: WRITER_WAIT_MS })
  await untilFree(() => setPragmas(writing.db, WRITER_WAIT_MS), patienceMs)
  const reading = connect(path, { reading: true, waitMs: READER_WAIT_MS })
  setPragmas(reading.db, READER_WAIT_MS)
  if (checked) requireSound(reading.db)
  const prisma = pageReads(path, READER_WAIT_MS)
  const writer = writerOn(writing, patienceMs)
  const tx = txOf(writing)
  return {
    url: `file:${path}`,
    path,
    prisma,
    reader: readerOf(reading),
    record: (call, change) =>
      writer.write(() => {
        const { value, events, actor = call.actor } = change(tx)
        if (events.length === 0) throw new Error('A change without a log row is refused.')
        appendTrail(writing, { actor, now: call.now }, events)
        return value
      }),
    touchSession: (id, at) => writer.write(() => touchSession(writing, id, at)),
    probeWrite: (at) => writer.write(() => writeProbe(writing, at)),
    copyTo: (to) => copyDatabase(path, to),
    async close() {
      await prisma.$disconnect()
      // The last connection to close moves the write-ahead log into the file; one that only reads cannot.
      reading.db.close()
      await writer.close()
      leave()
    },
  }
}
