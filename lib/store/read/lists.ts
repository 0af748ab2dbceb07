/** Rows of one kind: their columns, and where they stand in which order, given as SQL whose they are. */
export interface ListOfRows {
  readonly columns: readonly string[]
  readonly rows: (whose: string) => string
}

/** Asks for those of a parameter. */
export function listSql({ columns, rows }: ListOfRows): string {
  return `SELECT ${columns.join(', ')} FROM ${rows('?')}`
}

/**
 * Those of a row of the query this stands in, as one JSON text: null or a list. On a server every question is a journey, so several lists come with one; and
 * each is found by an index, whatever a server takes a join to bring.
 */
export function listText({ columns, rows }: ListOfRows, whose: string): string {
  const named = columns.map((column) => `'${column}', ${column}`).join(', ')
  return `(SELECT json_group_array(json_object(${named})) FROM (SELECT ${columns.join(', ')} FROM ${rows(whose)}) AS listed)`
}

/** The rows of such a text. */
export function rowsIn<Row>(text: string | null): readonly Row[] {
  return text === null ? [] : (JSON.parse(text) as Row[])
}
