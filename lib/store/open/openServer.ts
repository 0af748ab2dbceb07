import { migrateServer } from '../migrate/migrateServer.ts'
import { migrationsDirectory, readMigrations } from '../migrate/migrations.ts'
import { connectServer } from '../postgres/connectServer.ts'
import { requireSettings } from '../postgres/requireSettings.ts'
import { readerOf } from '../reader.ts'
import type { Store } from '../store.ts'
import { databaseName, placeOnThisMachine } from './address.ts'
import { NotOpened } from './notOpened.ts'
import type { OpenOptions } from './openOptions.ts'
import { changingOn, PATIENCE_MS } from './storeOn.ts'

/** Opens a database on a server, migrated where behind; the database itself has to be there. Throws as `openStore` says, and ServerFault. */
export async function openServer(
  url: string,
  { patienceMs = PATIENCE_MS, migrations = migrationsDirectory('postgresql'), checked = false }: OpenOptions,
): Promise<Store> {
  databaseName(url)
  const writing = connectServer(url, { reading: false })
  try {
    requireSettings(writing)
    await migrateServer(writing, readMigrations(migrations), patienceMs)
    const reading = connectServer(url, { reading: true })
    const [fault] = checked ? reading.faults() : []
    if (fault !== undefined)
      throw new NotOpened(`The database is damaged (${fault}). Stop every program that uses it and restore the last backup of the server.`)
    const { writer, ...changing } = changingOn(writing, patienceMs)
    return {
      ...changing,
      url,
      path: placeOnThisMachine(url),
      prisma: null,
      reader: readerOf(reading),
      copyTo() {
        throw new NotOpened('A database on a server is backed up by the server (docs/postgresql.md), not by this command. Nothing was copied.')
      },
      async close() {
        reading.close()
        await writer.close()
      },
    }
  } catch (error) {
    writing.close()
    throw error
  }
}
