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

/** What a fault of SQLite means to whoever runs the program, as the end of a sentence; null for any other error. */
export function faultSays(error: unknown): string | null {
  if (!(error instanceof Error) || !('code' in error) || typeof error.code !== 'string') return null
  const { code } = error
  const known = SAYS.find(([begins]) => code.startsWith(begins))
  return known === undefined ? null : `${known[1]} (${code}).`
}
