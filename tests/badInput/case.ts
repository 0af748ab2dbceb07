/** What became of the rows of a file; what is not named is 0. */
export type Counts = Partial<Record<'filed' | 'known' | 'corrected' | 'held' | 'refused', number>>

/** A file that is sent in, and what must come of it. */
export interface FileCase {
  /** Below `fixtures`. */
  readonly file: string
  /** What is wrong with it, or unusual and right. */
  readonly why: string
  /** Null: refused whole. */
  readonly rows: Counts | null
  /** The reason, and the part of its sentence that says what to do or where; null for a file of which every row is taken. */
  readonly told: { readonly line: number | null; readonly reason: string; readonly says: string } | null
  /** A question to the database afterwards and its answer, for what is taken as it is. */
  readonly stored?: { readonly sql: string; readonly rows: readonly (readonly unknown[])[] }
}

/** Where the row stands that is bad, behind one that is good: a line of CSV below its header, an OBX below MSH, PID, OBR, the second entry of a Bundle. */
const BAD_LINE: Readonly<Record<string, number>> = { csv: 3, hl7: 5, fhir: 2 }

type Told = readonly [file: string, why: string, reason: string, says: string]

function badRows(outcome: 'held' | 'refused', all: readonly Told[], filed: 0 | 1): readonly FileCase[] {
  return all.map(([file, why, reason, says]) => {
    const [format = ''] = file.split('/')
    const line = (BAD_LINE[format] ?? 0) - (filed === 1 || format === 'csv' ? 0 : 1)
    return { file, why, rows: { filed, [outcome]: 1 }, told: { line, reason, says } }
  })
}

/** Files of a good row and behind it one that waits. */
export const held = (...all: readonly Told[]): readonly FileCase[] => badRows('held', all, 1)
/** Files of a good row and behind it one that is not stored. */
export const refused = (...all: readonly Told[]): readonly FileCase[] => badRows('refused', all, 1)
/** Files whose only row waits, since what is wrong stands above it. */
export const heldAlone = (...all: readonly Told[]): readonly FileCase[] => badRows('held', all, 0)
/** Files whose only row is not stored, since what is wrong stands above it. */
export const refusedAlone = (...all: readonly Told[]): readonly FileCase[] => badRows('refused', all, 0)

/** Files of which nothing is read. */
export const whole = (...all: readonly Told[]): readonly FileCase[] =>
  all.map(([file, why, reason, says]) => ({ file, why, rows: null, told: { line: null, reason, says } }))
