/** What a row's columns can hold, as both engines give and take them. */
export type Cell = string | number | null | Buffer

/** What a statement that gives no rows did. */
export interface Ran {
  /** Rows it inserted, changed or removed. */
  readonly changes: number
}

/** One prepared statement: `Row` is the shape of its rows, column names as in the statement. */
export interface Prepared<Row = unknown> {
  get(...cells: readonly Cell[]): Row | undefined
  all(...cells: readonly Cell[]): Row[]
  run(...cells: readonly Cell[]): Ran
}

/**
 * One connection, with every statement prepared once. Synchronous on both engines: a change must not let other work into its transaction, and code that
 * reads a patient is the same whether the rows lie in a file or on a server. SQL is written once, in what both engines take.
 */
export interface Connection {
  /** The statement of this text, prepared on first use. */
  statement<Row = unknown>(sql: string): Prepared<Row>
  /** All rows of a statement that gives many wide ones, as fast as the engine hands them over. */
  wideRows<Row>(sql: string, ...cells: readonly Cell[]): Row[]
  /** The rows of a statement without parameters one after the other, however many there are. Inside `snapshot` or a transaction. */
  each<Row>(sql: string): Iterable<Row>
  /** Runs an INSERT into a table that numbers its rows itself, and returns the number. */
  insert(sql: string, ...cells: readonly Cell[]): number
  /** Inserts rows of these columns, in their order, into a table that numbers its rows itself, and returns their numbers. */
  insertAll(table: string, columns: readonly string[], rows: readonly (readonly Cell[])[]): number[]
  /** Inserts those of the rows that are not there yet: of two with the same key the first stays. */
  insertMissing(table: string, columns: readonly string[], rows: readonly (readonly Cell[])[]): void
  /** Runs several statements without parameters. */
  exec(sql: string): void
  /** Runs several reads so that all of them see one moment, whatever other programs commit in between. Inside a transaction that is so already. */
  snapshot<T>(read: () => T): T
  /** What the engine itself finds wrong with the database: structure, and rows that point to nothing. None where all is sound. */
  faults(): string[]
  close(): void
}

/** The connection all writes of a store go through. */
export interface WritingConnection extends Connection {
  /** Begins a transaction nobody else's write can come into. Throws an error `isBusy` knows where another program writes. */
  begin(): void
  /** Returns once the disk has what was written. */
  commit(): void
  /** Undoes what was written since `begin`; nothing where the engine has done so itself. */
  rollback(): void
}
