import type { ProfileFile } from '../../lib/usecases/index.ts'

/** One row of units while it is typed. */
export interface UnitRow {
  readonly id: number
  readonly code: string
  readonly unit: string
}

/** A profile while it is typed. */
export interface Draft extends Omit<ProfileFile, 'source' | 'units' | 'timeZone'> {
  readonly timeZone: string
  readonly units: readonly UnitRow[]
}

/** A profile as its form shows it. */
export function draftOf({ units, decimalSign, dayOrder, timeZone, addsPatients }: ProfileFile): Draft {
  const rows = Object.entries(units).map(([code, unit], id) => ({ id, code, unit }))
  return { units: rows, decimalSign, dayOrder, timeZone: timeZone ?? '', addsPatients }
}

/** What is typed, as the file of a profile. */
export function fileOfDraft(source: string, { units, timeZone, ...others }: Draft): string {
  const named = units.filter(({ code, unit }) => code.trim() !== '' || unit.trim() !== '')
  const profile = { source, ...others, timeZone: timeZone.trim() === '' ? null : timeZone.trim() }
  return JSON.stringify({ ...profile, units: Object.fromEntries(named.map(({ code, unit }) => [code.trim(), unit.trim()])) })
}

/** A code that stands in two rows: of the two units neither is taken. Null where there is none. */
export function codeTwice({ units }: Draft): string | null {
  const codes = units.map(({ code }) => code.trim()).filter((code) => code !== '')
  return codes.find((code, at) => codes.indexOf(code) !== at) ?? null
}

const isRecord = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null && !Array.isArray(value)

/** A file as a draft; a sentence where it is none. What its fields may say is judged as if they were typed. */
export function draftOfFile(text: string, source: string): Draft | string {
  let given: unknown
  try {
    given = JSON.parse(text)
  } catch {
    return 'The file is no JSON.'
  }
  if (!isRecord(given) || typeof given.source !== 'string') return 'The file is no profile: it needs an object with "source".'
  if (given.source.trim() !== source) return `The file is about ${given.source}, and this page about ${source}. Nothing was loaded.`
  const { units = {}, decimalSign = 'point', dayOrder = 'year-first', timeZone = null, addsPatients = false, source: _, ...unknown } = given
  const [field] = Object.keys(unknown)
  if (field !== undefined) return `${field} is nothing a profile says. Nothing was loaded.`
  if (!isRecord(units) || Object.values(units).some((unit) => typeof unit !== 'string')) return 'units is no list of codes, each with its unit.'
  if (decimalSign !== 'point' && decimalSign !== 'comma') return 'decimalSign is neither point nor comma.'
  if (dayOrder !== 'year-first' && dayOrder !== 'day-first' && dayOrder !== 'month-first')
    return 'dayOrder is none of year-first, day-first, month-first.'
  if (timeZone !== null && typeof timeZone !== 'string') return 'timeZone is no name of a time zone.'
  if (typeof addsPatients !== 'boolean') return 'addsPatients is neither true nor false.'
  return draftOf({ source, units: units as Readonly<Record<string, string>>, decimalSign, dayOrder, timeZone, addsPatients })
}
