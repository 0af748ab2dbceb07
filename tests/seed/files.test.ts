import { createHash } from 'node:crypto'
import Papa from 'papaparse'
import { expect, test } from 'vitest'
import { day, daysBetween } from '../../lib/time/index.ts'
import { type Cohort, inventCohort } from '../../seed/index.ts'

const WISH = { patients: 60, years: 3, seed: 20_261_125, endsOn: day('2026-11-25') }
const cohort = inventCohort(WISH)

const digests = ({ files }: Cohort) => files.map(({ name, bytes }) => [name, createHash('sha256').update(bytes).digest('hex')])

function rowsOf(name: string | RegExp): Record<string, string>[] {
  return cohort.files
    .filter((file) => (typeof name === 'string' ? file.name === name : name.test(file.name)))
    .flatMap((file) => {
      const text = new TextDecoder('utf-8', { fatal: true }).decode(file.bytes)
      const parsed = Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true })
      expect(parsed.errors, file.name).toEqual([])
      return parsed.data
    })
}

const headerOf = (name: string) => new TextDecoder().decode(cohort.files.find((file) => file.name === name)?.bytes).split('\r\n')[0]

test('the same argument gives the same bytes, another seed gives others', () => {
  expect(digests(inventCohort(WISH))).toEqual(digests(cohort))
  expect(inventCohort(WISH).told).toEqual(cohort.told)
  expect(digests(inventCohort({ ...WISH, seed: 1 }))).not.toEqual(digests(cohort))
})

test('another last day moves the cohort and leaves what happens in it', () => {
  const later = inventCohort({ ...WISH, endsOn: day('2027-02-03') })
  expect(later.told).toEqual(cohort.told)
  expect(later.files.map((file) => file.name)).toEqual(cohort.files.map((file) => file.name))
})

test('the columns are those of the three files, and no others', () => {
  expect(cohort.files.map((file) => file.name)).toEqual(['patients.csv', 'course.csv', 'results-quorvasse-1.csv', 'results-ymbrask-1.csv'])
  expect(headerOf('patients.csv')).toBe('patient_id,family_name,given_name,birth_date,sex,weight_kg,clinician,status,status_on')
  expect(headerOf('course.csv')).toBe(
    'patient_id,on,event,phase,heavy_chain,light_chain,line,regimen,intent,modality,lytic_lesions,focal_lesions_5mm,new_lesions,growth_percent,plasma_cells_percent,abnormalities,mrd,reason',
  )
  for (const name of ['results-quorvasse-1.csv', 'results-ymbrask-1.csv']) {
    expect(headerOf(name)).toBe('patient_id,collected_at,code,value,unit,status,accession,laboratory,method,reference_low,reference_high,reported_at')
  }
})

test('every patient stands in the patients file once, and is told of once', () => {
  const ids = rowsOf('patients.csv').map((row) => row.patient_id)
  expect(ids).toHaveLength(60)
  expect(new Set(ids).size).toBe(60)
  expect(cohort.told.map(({ patientId }) => patientId)).toEqual(ids)
})

test('nothing was collected, reported or recorded after the last day, or before the years asked for', () => {
  const days = [...rowsOf(/^results/).flatMap((row) => [row.collected_at, row.reported_at]), ...rowsOf('course.csv').map((row) => row.on)]
    .map((text) => (text ?? '').slice(0, 10))
    .filter((text) => !text.endsWith('-02-30'))
  const ago = days.map((text) => daysBetween(day(text), WISH.endsOn))
  expect(Math.min(...ago)).toBeGreaterThanOrEqual(0)
  expect(Math.max(...ago)).toBeLessThanOrEqual(3 * 366)
})

test('each laboratory writes its own units', () => {
  const unitsOf = (code: string) =>
    new Set(
      rowsOf(/^results/)
        .filter((row) => row.code === code && /^[<>]?\d/.test(row.value ?? ''))
        .map((row) => `${row.laboratory}: ${row.unit}`),
    )
  expect(unitsOf('33358-3')).toEqual(new Set(['Quorvasse Laboratory: g/dL', 'Ymbrask Laboratory: g/L']))
  expect(unitsOf('36916-5')).toEqual(new Set(['Quorvasse Laboratory: mg/dL', 'Ymbrask Laboratory: mg/L']))
})

test('values come as limits and words too, corrected, and haemolysed', () => {
  const large = inventCohort({ ...WISH, patients: 400 })
  const text = large.files.map((file) => new TextDecoder().decode(file.bytes)).join('')
  for (const word of [
    ',<0.1,g/dL,',
    ',<1,g/L,',
    ',not detected,',
    ',no monoclonal protein,',
    ',trace,',
    ',haemolysed,',
    ',QNS,',
    ',corrected,',
    ',entered-in-error,',
  ]) {
    expect(text, word).toContain(word)
  }
})

test('asks for at least one patient and one year', () => {
  expect(() => inventCohort({ ...WISH, patients: 0 })).toThrow(RangeError)
  expect(() => inventCohort({ ...WISH, years: 0.5 })).toThrow(RangeError)
})

test('two thousand patients take a few seconds at most, and rows grow with patients', { timeout: 30_000 }, () => {
  const started = process.hrtime.bigint()
  const large = inventCohort({ ...WISH, patients: 2000, years: 2 })
  expect(Number(process.hrtime.bigint() - started) / 1e9).toBeLessThan(15)
  const bytes = large.files.reduce((sum, file) => sum + file.bytes.length, 0)
  const small = inventCohort({ ...WISH, patients: 1000, years: 2 }).files.reduce((sum, file) => sum + file.bytes.length, 0)
  expect(bytes / small).toBeGreaterThan(1.9)
  expect(bytes / small).toBeLessThan(2.1)
})
