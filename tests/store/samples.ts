import type { LabResult } from '../../lib/results/index.ts'
import type { NewFile, NewResult, RecordCall, Tx } from '../../lib/store/index.ts'
import { day, parseBirthDate, parseMoment } from '../../lib/time/index.ts'
import { exactly } from '../../lib/units/index.ts'

export const CALL: RecordCall = {
  actor: { name: 'tester', role: 'console', sessionHash: null, address: null, requestId: 'request-1' },
  now: '2026-11-25T10:00:00.000Z',
}

export const FILE: NewFile = {
  name: 'results.csv',
  kind: 'results',
  source: null,
  receivedAt: CALL.now,
  receivedBy: 'tester',
  rowsInFile: 10,
  refusedWhole: null,
  bytes: new TextEncoder().encode('patient_id,collected_at\n'),
  counts: null,
}

function certain<T>(value: T | null): T {
  if (value === null) throw new Error('a sample of the tests cannot be read')
  return value
}

/** Adds one file and one followed patient; returns the file's number. */
export function addPatient(tx: Tx, id: string): number {
  const fileId = tx.insertFile(FILE)
  const birthDate = certain(parseBirthDate('1960-02-01'))
  const patient = {
    id,
    familyName: null,
    givenName: null,
    birthDate,
    sex: 'female',
    weightKg: null,
    clinician: null,
    status: 'followed',
    statusOn: null,
  } as const
  tx.insertPatient(patient, { fileId, line: 2 })
  return fileId
}

/** A serum M-protein of 14.2 g/L collected on a day, with what a test changes of it. */
export function newResult(patientId: string, fileId: number, on: string, change: Partial<LabResult> = {}): NewResult {
  const result = {
    analyte: 'serum-m-protein',
    code: '33358-3',
    collected: certain(parseMoment(on)),
    status: 'final',
    value: { kind: 'number', comparator: null, kept: exactly('14.2'), printed: exactly('1.42'), printedUnit: 'g/dL' },
    accession: 'A1',
    laboratory: 'North',
    method: null,
    referenceLow: null,
    referenceHigh: null,
    reportedAt: null,
    version: 1,
    ...change,
  } as const
  return { patientId, identity: `${patientId}|33358-3|${on}`, result, provenance: { fileId, line: 2, valueText: '1.42', unitText: 'g/dL' } }
}

export const TODAY = day('2026-11-25')
