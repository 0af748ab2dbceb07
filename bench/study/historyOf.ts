import { interpretResult, type RawRow } from '../../lib/intake/index.ts'
import type { CourseEvent, History, LabResult, Patient } from '../../lib/results/index.ts'
import { addDays, type Day, day, parseBirthDate } from '../../lib/time/index.ts'
import { INTERNATIONAL, type Measured, type Printed, printed, printedMProtein, type Truth } from '../../seed/index.ts'
import type { TrueCourse } from './trueCourse.ts'

const START = day('2015-01-05')
const ID = 'S1'

/** The calendar day so many days after the line began. */
export function calendarDay(since: number): Day {
  return addDays(START, since)
}

function patient(): Patient {
  const birthDate = parseBirthDate('1950-06-15')
  if (birthDate === null) throw new RangeError('no date of birth')
  const nobody = { familyName: null, givenName: null, weightKg: null, clinician: null, statusOn: null }
  return { id: ID, ...nobody, birthDate, sex: 'female', status: 'followed' }
}

const PATIENT = patient()

function printedAs(analyte: Measured, value: number): Printed {
  return analyte === 'serum-m-protein' ? printedMProtein(INTERNATIONAL, value, false) : printed(INTERNATIONAL, analyte, value)
}

/** One result the way it comes in: printed by a laboratory (g/L and mg/L to one decimal), read by intake. Null where intake holds it as hardly possible. */
function resultOf(analyte: Measured, value: number, on: Day, id: number): LabResult | null {
  const shown = printedAs(analyte, value)
  const fields = { patient_id: ID, collected_at: on, code: shown.code, value: shown.value, unit: shown.unit, laboratory: INTERNATIONAL.name }
  const row: RawRow = { kind: 'results', line: id + 1, text: '', fields, refusal: null }
  const read = interpretResult(row, PATIENT, on)
  if (read.outcome === 'held') return null
  if (read.outcome !== 'take') throw new Error(`A simulated ${analyte} of ${shown.value} ${shown.unit} was not taken: ${read.sentence}`)
  const { patientId: _, provenance, ...result } = read.value
  return { ...result, id, version: 1, provenance: { fileId: 1, fileName: 'study', ...provenance } }
}

/** What the samples showed, oldest first, by days since the line began. */
export interface Shown {
  readonly on: number
  readonly values: Truth
}

/** The history a clinic would have of a patient with these samples: active disease, one line, which began with the first of them. */
export function historyOf({ heavy, urineSampled }: TrueCourse, samples: readonly Shown[]): History {
  const analytes: Measured[] = ['serum-m-protein', ...(urineSampled ? (['urine-m-protein'] as const) : []), 'kappa-flc', 'lambda-flc']
  let id = 0
  const results = samples.flatMap(({ on, values }) =>
    analytes.flatMap((analyte) => {
      id += 1
      return resultOf(analyte, values[analyte] ?? 0, calendarDay(on), id) ?? []
    }),
  )
  const events: CourseEvent[] = [
    { event: 'diagnosis', on: START, phase: 'active', heavyChain: heavy, lightChain: 'kappa' },
    { event: 'line-start', on: START, line: 1, regimen: ['lenalidomide', 'dexamethasone'], intent: null },
  ]
  return { patient: PATIENT, results, events, held: [], decisions: [], courseChanges: [], changes: [] }
}
