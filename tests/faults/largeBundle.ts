import { closeSync, fstatSync, openSync, readSync, writeSync } from 'node:fs'
import type { ByteSource } from '../../lib/intake/index.ts'

const MANY = 1_000

function observation(n: number): string {
  const quantity = { value: 120 + (n % 40), unit: 'g/L', system: 'http://unitsofmeasure.org', code: 'g/L' }
  return JSON.stringify({
    fullUrl: `http://example.org/fhir/Observation/o${n}`,
    resource: {
      resourceType: 'Observation',
      id: `o${n}`,
      status: 'final',
      identifier: [{ system: 'http://example.org/numbers', value: `A${n}` }],
      code: { coding: [{ system: 'http://loinc.org', code: '718-7', display: 'Hämoglobin' }] },
      subject: { reference: `Patient/p${n % MANY}` },
      effectiveDateTime: '2026-05-01T08:00:00Z',
      performer: [{ reference: 'Organization/north' }],
      valueQuantity: quantity,
      ...(n % 10 === 0 ? { component: [{ code: { text: 'a' }, valueQuantity: quantity }] } : {}),
    },
  })
}

const report = (n: number): string => {
  const result = Array.from({ length: 10 }, (_, back) => ({ reference: `Observation/o${n - back}` }))
  return JSON.stringify({ resource: { resourceType: 'DiagnosticReport', id: `r${n}`, status: 'final', result } })
}

const patient = (n: number): string =>
  JSON.stringify({ resource: { resourceType: 'Patient', id: `p${n}`, identifier: [{ value: `MR${n}` }], birthDate: '1950-03-12', gender: 'female' } })

/** Writes a Bundle of about so many bytes, patients last, and answers how many rows it has. */
export function writeBundle(path: string, bytes: number): number {
  const file = openSync(path, 'w')
  let [written, rows] = [writeSync(file, '{"entry":[{"resource":{"resourceType":"Organization","id":"north","name":"North"}}'), 1]
  for (let n = 0; written < bytes; n += 10) {
    const ten = Array.from({ length: 10 }, (_, more) => observation(n + more))
    written += writeSync(file, `,\n${[...ten, report(n + 9)].join(',')}`)
    // The report only groups them, and is no row.
    rows += 11
  }
  writeSync(file, `,${Array.from({ length: MANY }, (_, n) => patient(n)).join(',')}],"type":"collection","resourceType":"Bundle"}`)
  closeSync(file)
  return rows + MANY
}

/** A file as a source, read where it lies. */
export function fileSource(path: string): ByteSource {
  const file = openSync(path, 'r')
  const read = (from: number, to: number) => {
    const bytes = new Uint8Array(to - from)
    if (readSync(file, bytes, 0, bytes.length, from) < bytes.length) throw new RangeError('the file has become shorter')
    return bytes
  }
  return { length: fstatSync(file).size, read }
}
