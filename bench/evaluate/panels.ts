import type { Analyte } from '../../lib/results/index.ts'
import { addDays, addMonths, type Day } from '../../lib/time/index.ts'
import type { IncomingFile } from '../../lib/usecases/index.ts'
import { type Chance, chancesFrom } from '../../seed/index.ts'

const MONTHS_A_YEAR = 12
const RESULT_HEADER = 'patient_id,collected_at,code,value,unit,status,accession,laboratory,method,reference_low,reference_high,reported_at'
const COURSE_HEADER = 'patient_id,on,event,phase,heavy_chain,light_chain,line,regimen,intent'
const PATIENT_HEADER = 'patient_id,family_name,given_name,birth_date,sex,weight_kg,clinician,status,status_on'

/** What a laboratory prints of an analyte but for those that follow the disease: the middle, how far values spread around it, and its decimals. */
interface Printed {
  readonly analyte: Analyte
  readonly code: string
  readonly unit: string
  readonly middle: number
  readonly decimals: number
}

const PRINTED: readonly Printed[] = [
  { analyte: 'urine-m-protein', code: '42482-0', unit: 'mg/(24.h)', middle: 60, decimals: 0 },
  { analyte: 'kappa-flc', code: '36916-5', unit: 'mg/L', middle: 14, decimals: 1 },
  { analyte: 'lambda-flc', code: '33944-0', unit: 'mg/L', middle: 13, decimals: 1 },
  { analyte: 'igg', code: '2465-3', unit: 'g/L', middle: 9, decimals: 2 },
  { analyte: 'iga', code: '2458-8', unit: 'g/L', middle: 1.4, decimals: 2 },
  { analyte: 'igm', code: '2472-9', unit: 'g/L', middle: 0.8, decimals: 2 },
  { analyte: 'igd', code: '2460-4', unit: 'mg/L', middle: 30, decimals: 0 },
  { analyte: 'ige', code: '19113-0', unit: '[IU]/mL', middle: 40, decimals: 0 },
  { analyte: 'haemoglobin', code: '718-7', unit: 'g/L', middle: 128, decimals: 0 },
  { analyte: 'white-cells', code: '6690-2', unit: '10*9/L', middle: 6.1, decimals: 1 },
  { analyte: 'neutrophils', code: '751-8', unit: '10*9/L', middle: 3.4, decimals: 2 },
  { analyte: 'platelets', code: '777-3', unit: '10*9/L', middle: 220, decimals: 0 },
  { analyte: 'calcium', code: '2000-8', unit: 'mmol/L', middle: 2.34, decimals: 2 },
  { analyte: 'ionised-calcium', code: '1994-3', unit: 'mmol/L', middle: 1.22, decimals: 2 },
  { analyte: 'albumin', code: '1751-7', unit: 'g/L', middle: 41, decimals: 0 },
  { analyte: 'total-protein', code: '2885-2', unit: 'g/L', middle: 74, decimals: 0 },
  { analyte: 'creatinine', code: '14682-9', unit: 'umol/L', middle: 82, decimals: 0 },
  { analyte: 'b2-microglobulin', code: '1952-1', unit: 'mg/L', middle: 2.1, decimals: 1 },
  { analyte: 'ldh', code: '2532-0', unit: 'U/L', middle: 170, decimals: 0 },
  { analyte: 'alkaline-phosphatase', code: '6768-6', unit: 'U/L', middle: 75, decimals: 0 },
  { analyte: 'marrow-plasma-cells', code: '11118-7', unit: '%', middle: 4, decimals: 0 },
  { analyte: 'circulating-plasma-cells', code: '13047-6', unit: '%', middle: 0.2, decimals: 1 },
]
const FIXATIONS = ['25700-6', '13440-1']
/** Variation between two samples of what does not change: small, so that what is flagged is the disease. */
const SPREAD = 0.04

/** Serum M-protein of each month: treatment makes it fall, and in two of three patients it comes back one day. */
function mProtein(chance: Chance, months: number): readonly string[] {
  const [before, left] = [chance.between(25, 60), chance.between(0.03, 0.5)]
  const back = chance.happens(2 / 3) ? chance.whole(Math.floor(months / 2), months + 6) : Number.POSITIVE_INFINITY
  const doubling = chance.between(3, 14)
  return Array.from({ length: months }, (_, month) => {
    const treated = before * (left + (1 - left) * Math.exp(-month / 5))
    const grown = month > back ? treated * 2 ** ((month - back) / doubling) : treated
    return Math.min(95, grown * (1 + 0.03 * chance.normal())).toFixed(1)
  })
}

function rowsOf(id: string, chance: Chance, begins: Day, months: number): string[] {
  const protein = mProtein(chance, months)
  return protein.flatMap((serum, month) => {
    const on = addDays(addMonths(begins, month), chance.whole(0, 3))
    const row = (code: string, value: string, unit: string) => `${id},${on},${code},${value},${unit},final,${id}-${month},Quorby Laboratory,,,,${on}`
    const usual = PRINTED.map(({ code, unit, middle, decimals }) => row(code, chance.logNormal(middle, SPREAD).toFixed(decimals), unit))
    return [row('33358-3', serum, 'g/L'), ...usual, ...FIXATIONS.map((code) => row(code, 'IgG kappa', ''))]
  })
}

/** The analytes of a month: everything Lowmark follows but the ratio of light chains, which is worked out. */
export const ANALYTES_A_MONTH = 1 + PRINTED.length + FIXATIONS.length

export interface PanelWish {
  readonly patients: number
  readonly years: number
  readonly seed: number
  /** The last month ends here. */
  readonly endsOn: Day
}

/** Invented patients in treatment, each with every analyte once a month for so many years: files as a clinic would hand them in. */
export function panels({ patients, years, seed, endsOn }: PanelWish): readonly IncomingFile[] {
  const chances = chancesFrom(seed)
  const months = years * MONTHS_A_YEAR
  const begins = addDays(addMonths(endsOn, -months), 1)
  const ids = Array.from({ length: patients }, (_, at) => `E-${String(at + 1).padStart(4, '0')}`)
  const file = (name: string, header: string, rows: readonly string[]): IncomingFile => ({
    name,
    bytes: Buffer.from(`${[header, ...rows].join('\r\n')}\r\n`),
  })
  const course = ids.flatMap((id) => [
    `${id},${begins},diagnosis,active,G,kappa,,,`,
    `${id},${addDays(begins, 10)},line-start,,,,1,lenalidomide,maintenance`,
  ])
  const people = ids.map(
    (id, at) => `${id},Zelvu ${at},Ulqi,19${50 + (at % 20)}-03-0${1 + (at % 9)},${at % 2 ? 'male' : 'female'},,Dr Ivrombri Thyx,followed,`,
  )
  return [
    file('patients.csv', PATIENT_HEADER, people),
    file('course.csv', COURSE_HEADER, course),
    file(
      'results.csv',
      RESULT_HEADER,
      ids.flatMap((id) => rowsOf(id, chances.next().value, begins, months)),
    ),
  ]
}
