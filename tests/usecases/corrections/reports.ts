import type { IncomingFile } from '../../../lib/usecases/index.ts'
import { bundleText, type Fields, grams, observation, patientResource } from '../../intake/fhir/resources.ts'
import { fileOf, msh, obr, obx, pid } from '../../intake/hl7/messages.ts'
import { csv, type Row, resultRow } from '../clinic.ts'

/** One report of the same sample, in no format yet. */
export interface Report {
  readonly status: 'preliminary' | 'final' | 'corrected' | 'cancelled' | 'entered-in-error'
  /** Null where it takes the result back. */
  readonly value: string | null
  readonly reportedOn: string
}

export const PRELIMINARY: Report = { status: 'preliminary', value: '34.0', reportedOn: '2026-11-04' }
export const FINAL: Report = { status: 'final', value: '36.0', reportedOn: '2026-11-05' }
export const CORRECTED: Report = { status: 'corrected', value: '10.5', reportedOn: '2026-11-10' }
export const CANCELLED: Report = { status: 'cancelled', value: null, reportedOn: '2026-11-14' }
export const WITHDRAWN: Report = { status: 'entered-in-error', value: null, reportedOn: '2026-11-14' }

const ON = '2026-11-03'
const ACCESSION = 'R'

function row({ status, value, reportedOn }: Report): Row {
  const shown = value === null ? { value: '', unit: '' } : { value }
  return resultRow({ collected_at: ON, accession: ACCESSION, laboratory: 'NORTH', status, reported_at: `${reportedOn}T12:00:00Z`, ...shown })
}

const OBX_11 = { preliminary: 'P', final: 'F', corrected: 'C', cancelled: 'X', 'entered-in-error': 'W' } as const

function message({ status, value, reportedOn }: Report): string {
  const made = `${reportedOn.replaceAll('-', '')}120000+0000`
  return fileOf(
    msh({ 7: made, 10: `${status} ${reportedOn}` }),
    pid(),
    obr({ 3: ACCESSION, 7: ON.replaceAll('-', '') }),
    obx({ 5: value ?? '', 6: value === null ? '' : 'g/L', 11: OBX_11[status] }),
  )
}

const OBSERVATION_STATUS = { preliminary: 'preliminary', final: 'final', corrected: 'amended', cancelled: 'cancelled' } as const

function resource({ status, value, reportedOn }: Report): Fields {
  return observation({
    status: status === 'entered-in-error' ? status : OBSERVATION_STATUS[status],
    identifier: [{ value: ACCESSION }],
    effectiveDateTime: ON,
    issued: `${reportedOn}T12:00:00Z`,
    performer: [{ type: 'Organization', display: 'NORTH' }],
    ...(value === null ? { valueQuantity: undefined } : { valueQuantity: grams(value) }),
  })
}

const file = (name: string, text: string): IncomingFile => ({ name, bytes: new TextEncoder().encode(text) })

/** These reports as one file, in this order. */
export const FORMATS = {
  CSV: (reports: readonly Report[]) => csv('reports.csv', reports.map(row)),
  HL7: (reports: readonly Report[]) => file('reports.hl7', reports.map(message).join('')),
  FHIR: (reports: readonly Report[]) => file('reports.json', bundleText([patientResource(), ...reports.map(resource)])),
} as const

export type Format = keyof typeof FORMATS

/** Every order of some things. */
export function orders<T>(all: readonly T[]): readonly (readonly T[])[] {
  return all.length === 0 ? [[]] : all.flatMap((first, at) => orders(all.toSpliced(at, 1)).map((rest) => [first, ...rest]))
}
