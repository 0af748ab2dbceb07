/** A schema in words both engines can be asked for. Every list is by table. */
export interface SchemaTold {
  /** In their order, as "name type [collation] [NOT NULL] [GENERATED] [DEFAULT …]". */
  readonly columns: Record<string, string[]>
  /** As PostgreSQL writes them. */
  readonly checks: Record<string, string[]>
  /** As PostgreSQL writes them; the ones keys make for themselves are under `keys`. */
  readonly indexes: Record<string, string[]>
  /** Of a primary key or a unique rule, as "PRIMARY KEY (…)" or "UNIQUE (…)". */
  readonly keys: Record<string, string[]>
  /** As "(…) REFERENCES table (…) [ON DELETE CASCADE]". */
  readonly references: Record<string, string[]>
  /** As "name BEFORE|AFTER event [OF …] [: sentence of the refusal]". */
  readonly triggers: Record<string, string[]>
}

/** Empty lists for these tables. */
export function byTable(tables: readonly string[]): Record<string, string[]> {
  return Object.fromEntries(tables.map((table) => [table, []]))
}

/** Adds to the list of a table. Throws where there is none. */
export function tell(lists: Record<string, string[]>, table: string, text: string): void {
  const list = lists[table]
  if (list === undefined) throw new Error(`${table} is no table.`)
  list.push(text)
}

/** The same lists, each in one order. */
export function sorted(lists: Record<string, string[]>): Record<string, string[]> {
  return Object.fromEntries(Object.entries(lists).map(([table, list]) => [table, list.toSorted()]))
}
