/** Values a plain question is asked with, and cells it answers. */
export type Value = string | number | null

/** The engine asked past the program, as a comparator asks it. */
export interface Plain {
  /** Rows of a question with `?` for its values, columns named as they are. */
  readonly all: <Row extends object>(sql: string, ...values: readonly Value[]) => Promise<readonly Row[]>
  readonly close: () => Promise<void>
}

/** What keeps the databases of a run of the bench: every figure is measured the same way on either. */
export interface Engine {
  readonly name: 'sqlite' | 'postgresql'
  /** Its address, of the database `postgres`; null for files. */
  readonly server: string | null
  /** Its name and version, for people. */
  readonly says: string
  /** The address of a database of this engine with everything a closed file of SQLite has: that file's own where it is one. */
  readonly ofFile: (path: string) => Promise<string>
  /** A copy of a closed database, for a name of a run; whatever had that name before is gone. */
  readonly copyOf: (url: string, name: string) => Promise<string>
  readonly plain: (url: string) => Promise<Plain>
  /** Bytes on the disk of a database that is in use, and of the log of writes before they are in it: of a server's, that of all its databases. */
  readonly bytesOf: (url: string) => Promise<{ readonly database: number; readonly wal: number }>
}
