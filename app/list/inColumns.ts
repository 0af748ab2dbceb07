/** Rows column by column: a name crosses once and not with every row, and what all rows have alike crosses once too. */
export type Columns<R> = { readonly [K in keyof R]: { readonly all: R[K] } | { readonly each: readonly R[K][] } }

/** The same of something only some rows have; `at` says which, by their places from 0. */
export interface SomeInColumns<R> {
  readonly at: readonly number[]
  readonly columns: Columns<R>
}

function isAlike(a: unknown, b: unknown): boolean {
  return a === b || (typeof a === 'object' && typeof b === 'object' && JSON.stringify(a) === JSON.stringify(b))
}

function columnOf<T>(values: readonly T[]): { readonly all: T } | { readonly each: readonly T[] } {
  const [first] = values
  return first !== undefined && values.every((value) => isAlike(value, first)) ? { all: first } : { each: values }
}

/** Rows of one shape, by columns. Every row has every field, and none is undefined. */
export function inColumns<R extends object>(rows: readonly R[]): Columns<R> {
  const [first] = rows
  const names = first === undefined ? [] : (Object.keys(first) as (keyof R)[])
  return Object.fromEntries(names.map((name) => [name, columnOf(rows.map((row) => row[name]))])) as Columns<R>
}

/** The rows again, so many of them. */
export function inRows<R extends object>(columns: Columns<R>, count: number): R[] {
  const named = Object.entries(columns) as [keyof R, Columns<R>[keyof R]][]
  return Array.from(
    { length: count },
    (_, at) => Object.fromEntries(named.map(([name, column]) => [name, 'all' in column ? column.all : column.each[at]])) as R,
  )
}

export function someInColumns<R extends object>(values: readonly (R | null)[]): SomeInColumns<R> {
  const at = values.flatMap((value, index) => (value === null ? [] : [index]))
  return { at, columns: inColumns(values.filter((value) => value !== null)) }
}

/** By the place of the row that has it. */
export function someInRows<R extends object>({ at, columns }: SomeInColumns<R>): ReadonlyMap<number, R> {
  const values = inRows(columns, at.length)
  return new Map(at.flatMap((place, index) => (values[index] === undefined ? [] : [[place, values[index]]])))
}
