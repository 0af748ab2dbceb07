import { addDays, day } from '../../lib/time/index.ts'
import { type Clinic, signedInAs } from './clinic.ts'
import { sendIntake } from './sendIntake.ts'

type Value = readonly [ago: number, code: string, value: string, unit: string]

const SERUM = '33358-3'
const HAEMOGLOBIN = '718-7'

/** Somebody on treatment whose tests were all done four days ago and who is found nothing: a test adds what is to be found. */
const QUIET: readonly Value[] = [
  [400, SERUM, '40', 'g/L'],
  [200, SERUM, '10', 'g/L'],
  [100, SERUM, '10', 'g/L'],
  [385, HAEMOGLOBIN, '132', 'g/L'],
  [100, HAEMOGLOBIN, '130', 'g/L'],
  [4, '36916-5', '12', 'mg/L'],
  [4, '33944-0', '10', 'mg/L'],
  [4, '777-3', '220', '10*9/L'],
  [4, '751-8', '3.1', '10*9/L'],
  [4, '2160-0', '80', 'umol/L'],
  [4, '17861-6', '2.3', 'mmol/L'],
  [4, '2465-3', '8', 'g/L'],
  [4, '2458-8', '1', 'g/L'],
  [4, '2472-9', '0.5', 'g/L'],
]

/** Serum M-protein up from 10 to 16 g/L: progression, unconfirmed, to be looked at within 30 days. */
export const RISEN: readonly Value[] = [...QUIET, [4, SERUM, '16', 'g/L'], [4, HAEMOGLOBIN, '131', 'g/L']]
/** The sample after it: 17 g/L. */
export const RISEN_AGAIN: readonly Value[] = [[1, SERUM, '17', 'g/L']]
/** Serum M-protein up in every sample, from 10 to 18 g/L: progression, with a trend of five samples. */
export const RISING: readonly Value[] = [
  ...QUIET,
  [60, SERUM, '12', 'g/L'],
  [32, SERUM, '14', 'g/L'],
  [4, SERUM, '18', 'g/L'],
  [4, HAEMOGLOBIN, '131', 'g/L'],
]
/** Haemoglobin down from 132 to 95 g/L: organ damage, to be looked at within 7 days. */
export const ANAEMIC: readonly Value[] = [...QUIET, [4, SERUM, '10', 'g/L'], [4, HAEMOGLOBIN, '95', 'g/L']]
/** Platelets down to 18 x10^9/L: a danger, to be looked at the same day. */
export const IN_DANGER: readonly Value[] = [...QUIET, [4, SERUM, '10', 'g/L'], [4, HAEMOGLOBIN, '131', 'g/L'], [2, '777-3', '18', '10*9/L']]

/** The day so many days before today. */
export function daysAgo(count: number): string {
  return addDays(day(new Date().toISOString().slice(0, 10)), -count)
}

function resultsOf(patientId: string, values: readonly Value[]): string[] {
  const rows = values.map(([ago, code, value, unit]) => `${patientId},${daysAgo(ago)},${code},${value},${unit},North laboratory`)
  return ['patient_id,collected_at,code,value,unit,laboratory', ...rows]
}

async function file(clinic: Clinic, files: readonly (readonly string[])[]): Promise<void> {
  const { context } = await signedInAs(clinic, 'navigator')
  for (const rows of files) {
    const answer = await sendIntake(clinic.url, await context.cookies(), `${rows.join('\n')}\n`, { origin: clinic.url, 'x-lowmark-dry-run': 'no' })
    const report = await answer.text()
    if (!report.includes(`"filed":${rows.length - 1},`)) throw new Error(`not filed as it should be: ${report}`)
  }
  await context.close()
}

/** Files results of a patient, as a nurse would send them. */
export function fileResults(clinic: Clinic, patientId: string, values: readonly Value[]): Promise<void> {
  return file(clinic, [resultsOf(patientId, values)])
}

/** An invented patient with active IgG kappa disease on a first line, and these results. */
export function admit(clinic: Clinic, patientId: string, values: readonly Value[]): Promise<void> {
  return file(clinic, [
    ['patient_id,birth_date,sex,family_name', `${patientId},1956-04-02,female,Invented ${patientId}`],
    [
      'patient_id,on,event,phase,heavy_chain,light_chain,line,regimen',
      `${patientId},${daysAgo(400)},diagnosis,active,G,kappa,,`,
      `${patientId},${daysAgo(390)},line-start,,,,1,bortezomib`,
    ],
    resultsOf(patientId, values),
  ])
}

/** Another record of whoever `admit` makes: a row of its own, results, and no course. */
export function registerAgain(clinic: Clinic, patientId: string, values: readonly Value[]): Promise<void> {
  return file(clinic, [['patient_id,birth_date,sex,family_name', `${patientId},1956,female,Invented again`], resultsOf(patientId, values)])
}

/** Whoever `admit` made is transferred: the record is closed from yesterday on. */
export function closeRecord(clinic: Clinic, patientId: string): Promise<void> {
  return file(clinic, [['patient_id,on,event,reason', `${patientId},${daysAgo(1)},left,transferred`]])
}
