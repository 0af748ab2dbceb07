import { ServerFault } from '../postgres/ask.ts'

const DAMAGED =
  'the database file is damaged. Stop every program that uses it, keep the file and those beside it as they are, and restore the last backup; files that came in since can be sent again'

/** What is wrong with the database by the beginning of SQLite's word for it, and what to do. */
const SAYS = [
  [
    'SQLITE_NOTADB',
    'the file is not a database of SQLite, or its first page is damaged. Name the right file in DATABASE_URL, or restore the last backup',
  ],
  ['SQLITE_CORRUPT', DAMAGED],
  ['SQLITE_FULL', 'the disk is full. What was answered before is kept; make room, then do it again'],
  [
    'SQLITE_IOERR',
    'the disk answered with an error. What was answered before is kept. Do it again; where it happens again, look at the disk before anything else',
  ],
  ['SQLITE_READONLY', 'the database file may not be written. Put it on a disk this user may write to, and start again'],
  ['SQLITE_CANTOPEN', 'the database file, or a file beside it, cannot be opened. This user has to own them and their directory'],
] as const

/** The same by PostgreSQL's word (SQLSTATE, "PostgreSQL Error Codes"), or the operating system's where the server was not reached. */
const SERVER_SAYS = [
  ['ECONNREFUSED', 'no server answers at the address in DATABASE_URL. Start it, or name the right one'],
  ['ENOENT', 'no server answers at the address in DATABASE_URL. Start it, or name the right one'],
  ['ENOTFOUND', 'the name of the server in DATABASE_URL is nobody’s. Name the right one'],
  ['28', 'the server refuses this user. Look at user, password and pg_hba.conf'],
  ['3D000', 'the server has no database of this name. Make it (createdb), or name the right one in DATABASE_URL'],
  ['53100', 'the disk of the server is full. What was answered before is kept; make room, then do it again'],
  ['53300', 'the server takes no further connections. Raise max_connections, or start fewer programs'],
  ['57P', 'the server is starting or stopping. Do it again when it runs'],
  ['08', 'the connection to the server was lost. What was answered before is kept; do it again'],
  ['XX001', 'the server found its files damaged. Stop every program that uses it and restore the last backup of the server'],
  ['42501', 'this user of the server may not do this. A host of one clinic site is admitted by admit_site_role (docs/postgresql.md)'],
] as const

/** What a fault of SQLite or of a server means to whoever runs the program, as the end of a sentence; null for any other error. */
export function faultSays(error: unknown): string | null {
  if (!(error instanceof Error) || !('code' in error) || typeof error.code !== 'string') return null
  const { code } = error
  const known = [...SAYS, ...(error instanceof ServerFault ? SERVER_SAYS : [])].find(([begins]) => code.startsWith(begins))
  return known === undefined ? null : `${known[1]} (${code}).`
}

/** Why something failed, for whoever runs the program: what a fault of the database means, and of anything else its own message. */
export function failureSays(error: unknown): string {
  return faultSays(error) ?? (error instanceof Error ? error.message : String(error))
}
