import { DEFAULT_PLAN } from '../../lib/plan/index.ts'
import { GAP_RULES } from '../../lib/rules/index.ts'
import { type Assessment, assess } from '../../lib/standing/index.ts'
import { day } from '../../lib/time/index.ts'
import { throughIntake } from '../seed/throughIntake.ts'

/** LOINC and UCUM as a laboratory sends them. */
const CODES = {
  'serum M': '33358-3',
  'urine M': '42482-0',
  kappa: '36916-5',
  lambda: '33944-0',
  calcium: '17861-6',
  'ionised calcium': '1994-3',
  creatinine: '2160-0',
  haemoglobin: '718-7',
} as const

/** What a laboratory printed: day, test, value, unit, and its own limits where it prints them. */
export type Printed = readonly [
  on: string,
  test: keyof typeof CODES,
  value: string,
  unit: string,
  limits?: { readonly low?: string; readonly high?: string },
]

/** One patient as three CSV texts. `course` rows are "on,event,..." in the order of COURSE_HEADER. */
export interface Paper {
  readonly course: readonly string[]
  readonly results?: readonly Printed[]
  readonly birthDate?: string
  readonly weightKg?: string
}

export const COURSE_HEADER =
  'on,event,phase,heavy_chain,light_chain,line,regimen,intent,modality,lytic_lesions,focal_lesions_5mm,plasma_cells_percent'

const COLUMNS = COURSE_HEADER.split(',').length

function courseRow(row: string): string {
  return `P-1,${row}${','.repeat(COLUMNS - row.split(',').length)}`
}

function resultRow([on, test, value, unit, limits]: Printed): string {
  return `P-1,${on},${CODES[test]},"${value}",${unit},${limits?.low ?? ''},${limits?.high ?? ''}`
}

/** The patient of three CSV files, read, filed and assessed as of a day. Throws where any row is held or refused. */
export function assessed({ course, results = [], birthDate = '1956-01-01', weightKg = '' }: Paper, asOf: string): Assessment {
  const file = (name: string, rows: readonly string[]) => ({ name, bytes: new TextEncoder().encode(`${rows.join('\n')}\n`) })
  const { histories, outcomes, reasons } = throughIntake(
    [
      file('patients.csv', ['patient_id,birth_date,sex,weight_kg', `P-1,${birthDate},male,${weightKg}`]),
      file('course.csv', [`patient_id,${COURSE_HEADER}`, ...course.map(courseRow)]),
      file('results.csv', ['patient_id,collected_at,code,value,unit,reference_low,reference_high', ...results.map(resultRow)]),
    ],
    day('2026-12-31'),
  )
  const [history] = histories
  if (history === undefined || outcomes.held + outcomes.refused > 0) throw new Error(`not every row was filed: ${reasons.join(', ')}`)
  return assess(history, DEFAULT_PLAN, day(asOf))
}

const GAPS: ReadonlySet<string> = new Set(GAP_RULES.map(({ id }) => id))

/** "rule state window" of what the results show on a day, in order; what is merely due or missing left out. */
export function shown(paper: Paper, asOf: string): string[] {
  return assessed(paper, asOf).findings.flatMap(({ rule, state, window }) => (GAPS.has(rule) ? [] : [`${rule} ${state} ${window}`]))
}
