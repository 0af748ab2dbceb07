import { z } from 'zod'
import type { Analyte } from '../../results/index.ts'
import { timeZoneNamed } from '../../time/index.ts'
import { unitFactor } from '../../units/index.ts'
import { analyteUnit } from '../analyteUnit.ts'
import type { SourceProfile } from './knowledge.ts'

/** A profile and the source it is of. */
export interface ProfileOf {
  readonly source: string
  readonly profile: SourceProfile
}

/** What is wrong with one field of a profile, in the words that follow the field: `units.718-7` "mg measures something else". */
export interface ProfileProblem {
  readonly field: string
  readonly says: string
}

export type ReadProfile =
  | { readonly ok: true; readonly value: ProfileOf }
  | { readonly ok: false; readonly problems: readonly [ProfileProblem, ...ProfileProblem[]] }

/** A profile that says nothing: what a file leaves out is not assumed. */
export const SAYS_NOTHING: SourceProfile = { units: {}, decimalSign: 'point', dayOrder: 'year-first', timeZone: null, addsPatients: false }

const MOST_UNITS = 200
const LONGEST = 100
const CONTROL = /\p{Cc}/u

const word = (needs: string) =>
  z
    .string(needs)
    .trim()
    .min(1, needs)
    .max(LONGEST, `has more than ${LONGEST} characters`)
    .refine((text) => !CONTROL.test(text), 'holds a control character')

const SCHEMA = z.strictObject(
  {
    source: word('is missing: the name that is given where a file is taken in'),
    units: z
      .record(word('names a code'), word('needs a unit (UCUM), such as g/L'), 'is no list of codes, each with its unit')
      .refine((units) => Object.keys(units).length <= MOST_UNITS, `has more than ${MOST_UNITS} codes`)
      .default({}),
    decimalSign: z.enum(['point', 'comma'], 'is neither point nor comma').default('point'),
    dayOrder: z.enum(['year-first', 'day-first', 'month-first'], 'is none of year-first, day-first, month-first').default('year-first'),
    timeZone: z.string('is no name of a time zone').nullable().default(null),
    addsPatients: z.boolean('is neither true nor false').default(false),
  },
  'is no profile: it needs an object with "source"',
)

function issueProblems({ issues }: z.ZodError): ProfileProblem[] {
  return issues.flatMap((issue) => {
    if (issue.code === 'unrecognized_keys') return issue.keys.map((key) => ({ field: key, says: 'is nothing a profile says' }))
    // What is wrong with the key of a record stands one level down.
    const [inner] = issue.code === 'invalid_key' ? issue.issues : []
    return [{ field: issue.path.join('.') || 'file', says: inner?.message ?? issue.message }]
  })
}

function unitProblem(code: string, unit: string, analyteOf: (code: string) => Analyte | null): string | null {
  const analyte = analyteOf(code)
  if (analyte === null) return 'names nothing that is followed here; decide first what the code stands for, or take its LOINC code'
  const kept = analyteUnit(analyte)
  if (kept === null) return `is ${analyte}, which has no unit`
  const reading = unitFactor(unit, kept.kept, kept.bridge)
  if (reading.ok) return null
  const why = reading.reason === 'unit-unknown' ? 'no UCUM unit and no known synonym of one' : 'a unit of something else'
  return `is ${analyte}, and "${unit}" is ${why}; it needs one that converts to ${kept.kept}`
}

/**
 * Reads what a profile file or form says. What it leaves out is not assumed; every field that is wrong is told, all at once. `analyteOf` says what a code
 * stands for, as received from that source or LOINC: a unit must convert for it.
 */
export function readProfile(given: unknown, analyteOf: (code: string, source: string) => Analyte | null): ReadProfile {
  const read = SCHEMA.safeParse(given)
  const problems: ProfileProblem[] = read.success ? [] : issueProblems(read.error)
  if (read.success) {
    const { source, units, timeZone } = read.data
    for (const [code, unit] of Object.entries(units)) {
      const says = unitProblem(code, unit, (one) => analyteOf(one, source))
      if (says !== null) problems.push({ field: `units.${code}`, says })
    }
    const zone = timeZone === null ? null : timeZoneNamed(timeZone.trim())
    if (timeZone !== null && zone === null)
      problems.push({ field: 'timeZone', says: `"${timeZone}" is no IANA time zone; one is written as in Europe/Berlin` })
    const { source: _, ...profile } = read.data
    if (problems.length === 0) return { ok: true, value: { source, profile: { ...profile, timeZone: zone } } }
  }
  const [first = { field: 'file', says: 'cannot be read' }, ...others] = problems
  return { ok: false, problems: [first, ...others] }
}
