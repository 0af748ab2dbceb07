import { resolve } from 'node:path'
import { databasePath } from './databaseFile.ts'
import { NotOpened } from './notOpened.ts'
import { isOnServer } from './serverAddress.ts'

/** The name of the database a server's address names. Throws NotOpened where it names none. */
export function databaseName(url: string): string {
  const name = URL.canParse(url) ? decodeURIComponent(new URL(url).pathname.slice(1)) : ''
  if (name === '')
    throw new NotOpened('The database address (DATABASE_URL) names a server and no database on it. Write it as postgresql://user@host/lowmark.')
  return name
}

/**
 * Where this program keeps what is on its way into the database: beside its file, or, for a database on a server, under `var` of where the program was
 * started, by the name of the database. Throws NotOpened for an address that names neither.
 */
export function placeOnThisMachine(url: string): string {
  if (!isOnServer(url)) return databasePath(url)
  return resolve(/* turbopackIgnore: true */ process.cwd(), 'var', `${databaseName(url).replaceAll(/[^\w.-]/g, '_')}.server`)
}
