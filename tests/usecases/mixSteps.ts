import fc from 'fast-check'
import type { IncomingFile } from '../../lib/usecases/index.ts'
import { bundleText, grams, loinc, observation, patientResource } from '../intake/fhir/resources.ts'
import { fileOf, msh, obr, obx, pid } from '../intake/hl7/messages.ts'
import { csv, type Row, resultRow } from './clinic.ts'

const PATIENTS = ['P1', 'P1', 'P2', 'P3', 'X1', 'X1'] as const
const oneRow = fc.record({
  patient: fc.constantFrom(...PATIENTS),
  sample: fc.integer({ min: 1, max: 4 }),
  code: fc.constantFrom('33358-3', 'MP'),
  unit: fc.constantFrom('g/L', 'g/L', 'gramm', ''),
  value: fc.constantFrom('10.0', '36.0', '14,5'),
  status: fc.constantFrom('', '', 'preliminary', 'corrected', 'cancelled', 'entered-in-error'),
  reported: fc.constantFrom('', '2026-11-04', '2026-11-10'),
})
/** One report of one of four samples of a patient. */
export type OneRow = typeof oneRow extends fc.Arbitrary<infer T> ? T : never

const at = fc.nat({ max: 50 })
const flag = fc.boolean()
/** What people and files do, one after the other. */
export const STEP = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.record({
      do: fc.constant('file'),
      format: fc.constantFrom('csv', 'hl7', 'fhir'),
      rows: fc.array(oneRow, { minLength: 1, maxLength: 5 }),
      source: fc.constantFrom('north', null),
    } as const),
  },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('profile'), unit: fc.constantFrom('g/L', 'mg/L'), comma: flag, adds: flag } as const) },
  { weight: 3, arbitrary: fc.record({ do: fc.constant('decide'), at, alike: flag, remember: fc.constantFrom(true, true, false) } as const) },
  { weight: 2, arbitrary: fc.record({ do: fc.constant('settle'), at, refuse: flag, alike: flag } as const) },
  {
    weight: 3,
    arbitrary: fc.record({
      do: fc.constant('whose'),
      at,
      to: fc.constantFrom('P1', 'P2', 'P3'),
      alike: flag,
      remember: fc.constantFrom(true, true, false),
      confirm: fc.constantFrom('yes', 'yes', 'yes', 'later', 'no'),
    } as const),
  },
  { weight: 3, arbitrary: fc.record({ do: fc.constant('revoke'), at } as const) },
  {
    weight: 2,
    arbitrary: fc.record({ do: fc.constant('join'), from: fc.constantFrom('P1', 'P2', 'P3'), into: fc.constantFrom('P1', 'P2', 'P3') } as const),
  },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('part'), at } as const) },
  { weight: 2, arbitrary: fc.record({ do: fc.constant('review'), at } as const) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('exclude'), at, patient: fc.constantFrom('P1', 'P2', 'P3'), back: flag } as const) },
)
export type Step = typeof STEP extends fc.Arbitrary<infer T> ? T : never

const DAY = (sample: number) => `2026-0${sample * 2}-03`
const OBX_11: Readonly<Record<string, string>> = { '': 'F', preliminary: 'P', corrected: 'C', cancelled: 'X', 'entered-in-error': 'W' }
const withdrawn = ({ status }: OneRow): boolean => status === 'cancelled' || status === 'entered-in-error'
const file = (name: string, text: string): IncomingFile => ({ name, bytes: new TextEncoder().encode(text) })

function rowOf(one: OneRow): Row {
  const { patient: patient_id, sample, code, unit, value, status, reported: reported_at } = one
  const said = withdrawn(one) ? { value: '', unit: '' } : { value, unit }
  return resultRow({ patient_id, collected_at: DAY(sample), accession: `S${sample}`, code, status, reported_at, ...said })
}

function message(one: OneRow, index: number): string {
  const { patient, sample, code, unit, value, status, reported } = one
  const who = pid({ 3: `${patient}^^^CLINIC^MR`, 5: '' })
  const order = obr({ 3: `S${sample}`, 7: DAY(sample).replaceAll('-', '') })
  const said = withdrawn(one) ? { 5: '', 6: '' } : { 5: value, 6: unit }
  const made = reported === '' ? '20261101' : reported.replaceAll('-', '')
  return fileOf(
    msh({ 7: `${made}120000+0000`, 10: `${index}` }),
    who,
    order,
    obx({ 3: code === 'MP' ? 'MP^m^L' : `${code}^m^LN`, 11: OBX_11[status] ?? '', ...said }),
  )
}

function resources(one: OneRow, index: number) {
  const { patient, sample, code, unit, value, status } = one
  const id = `p${index}`
  const identifier = [{ type: { coding: [{ system: 'http://terminology.hl7.org/CodeSystem/v2-0203', code: 'MR' }] }, value: patient }]
  const quantity = withdrawn(one) ? undefined : grams(value.replace(',', '.'), unit === 'g/L' ? {} : { code: undefined, system: undefined, unit })
  const coded = code === 'MP' ? { coding: [{ system: 'urn:local', code }] } : loinc(code)
  const told = status === '' ? 'final' : status === 'corrected' ? 'amended' : status
  const sampled = { effectiveDateTime: DAY(sample), identifier: [{ value: `S${sample}` }], subject: { reference: `Patient/${id}` } }
  return [patientResource({ id, identifier }), observation({ id: `o${index}`, status: told, code: coded, valueQuantity: quantity, ...sampled })]
}

/** The same reports as a file of each format. */
export const FORMATS = {
  csv: (rows: readonly OneRow[]) =>
    csv(
      'rows.csv',
      rows.map((row) => ({ birth_date: '1950-03-12', sex: 'female', ...rowOf(row) })),
    ),
  hl7: (rows: readonly OneRow[]) => file('rows.hl7', rows.map(message).join('')),
  fhir: (rows: readonly OneRow[]) => file('rows.json', bundleText(rows.flatMap(resources))),
}
