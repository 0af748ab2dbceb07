import fc from 'fast-check'

const UNITS: Readonly<Record<string, readonly string[]>> = {
  '33358-3': ['g/L', 'g/dL', 'mg/dL'],
  '36916-5': ['mg/L', 'mg/dL'],
  '718-7': ['g/L', 'g/dL', 'mmol/L'],
  '2160-0': ['mg/dL', 'umol/L'],
  '17861-6': ['mg/dL', 'mmol/L'],
  '777-3': ['10*9/L', 'K/uL', '10*3/uL'],
  '48378-4': ['', '1'],
}
// Each is inside what the analyte can be, in every one of its units.
const PLAUSIBLE: Readonly<Record<string, readonly string[]>> = {
  '33358-3': ['14.2', '1.0', '<0.1', '2.35', '.5'],
  '36916-5': ['19.4', '1.94e1', '> 500', '7'],
  '718-7': ['11.8', '12.05', '10'],
  '2160-0': ['7.10', '88', '>12'],
  '17861-6': ['2.45', '2.6', '<3'],
  '777-3': ['145', '150.0', '<20'],
  '48378-4': ['1.25', '310', '> 1000', '0.03'],
}

const sample = fc.constantFrom(...Object.keys(UNITS)).chain((code) =>
  fc.record({
    code: fc.constant(code),
    unit: fc.constantFrom(...(UNITS[code] ?? [])),
    value: fc.constantFrom(...(PLAUSIBLE[code] ?? [])),
    patient: fc.constantFrom('P1', 'P2', '__proto__'),
    on: fc.constantFrom('2024-03-01', '2024-06-02', '2025-01-31'),
    accession: fc.constantFrom('A1', 'A2', 'constructor'),
    status: fc.constantFrom('final', 'corrected', 'preliminary', 'entered-in-error', 'cancelled'),
    limits: fc.constantFrom(['', ''], ['0.5', '3.25'], ['', '17.5']),
  }),
)
export type Sample = typeof sample extends fc.Arbitrary<infer One> ? One : never
export const samples = fc.array(sample, { minLength: 1, maxLength: 6 })

/** Every cell in quotes, so that whatever comes in its place stays one cell. */
const csvOf = (header: string, rows: readonly (readonly string[])[]): string =>
  `${[header, ...rows.map((cells) => cells.map((cell) => `"${cell}"`).join(','))].join('\n')}\n`

/** A value without its comparator. */
const bare = (value: string): string => value.replace(/[<>] ?/, '')
const compact = (day: string): string => day.replaceAll('-', '')

export function resultsCsv(all: readonly Sample[]): string {
  const rows = all.map((one) => [one.patient, one.on, one.code, one.value, one.unit, one.status, one.accession, ...one.limits])
  return csvOf('patient_id,collected_at,code,value,unit,status,accession,reference_low,reference_high', rows)
}

export function patientsCsv(all: readonly Sample[]): string {
  const rows = all.map(({ patient, value }, at) => [`${patient}${at % 2 === 0 ? '' : 'x'}`, '1950-03-12', 'female', bare(value), 'followed'])
  return csvOf('patient_id,birth_date,sex,weight_kg,status', rows)
}

export function courseCsv(all: readonly Sample[]): string {
  const marrow = ({ patient, on, value }: Sample): string[] => [patient, on, 'marrow', '', '', bare(value)]
  const imaging = ({ patient, on }: Sample, at: number): string[] => [patient, on, 'imaging', 'ct', String(at + 2), '']
  const rows = all.map((one, at) => (at % 2 === 0 ? marrow(one) : imaging(one, at)))
  return csvOf('patient_id,on,event,modality,lytic_lesions,plasma_cells_percent', rows)
}

const HL7_STATUS: Readonly<Record<string, string>> = { final: 'F', corrected: 'C', preliminary: 'P', 'entered-in-error': 'W', cancelled: 'X' }

export function hl7(all: readonly Sample[]): string {
  const segments = all.flatMap(({ patient, on, code, value, unit, status, accession, limits }, at) => {
    const [, comparator = '', number = ''] = /^([<>]?) ?(.*)$/.exec(value) ?? []
    const [low = '', high = ''] = limits
    const interval = low !== '' ? `${low}-${high}` : high === '' ? '' : `<${high}`
    const said = comparator === '' ? `NM|${code}^x^LN||${number}` : `SN|${code}^x^LN||${comparator}^${number}`
    return [
      `MSH|^~\\&|LAB|NORTH|||20250601120000+0200||ORU^R01|M${at}|P|2.5.1`,
      `PID|1||${patient}^^^CLINIC^MR||Invented^Ann||19500312|F`,
      `OBR|1|O1|${accession}|PEP^Protein^L|||${compact(on)}`,
      `OBX|1|${said}|${unit}|${interval}||||${HL7_STATUS[status]}`,
    ]
  })
  return ['FHS|^~\\&', 'BHS|^~\\&', ...segments, `BTS|${all.length}`, 'FTS|1'].map((segment) => `${segment}\r`).join('')
}

function observation({ patient, on, code, value, unit, status, accession, limits }: Sample): string {
  const [, comparator = '', number = ''] = /^([<>]?) ?(.*)$/.exec(value.replace(/^\./, '0.')) ?? []
  const quantity = (digits: string, more = '') => `{"value":${digits}${more},"system":"http://unitsofmeasure.org","code":"${unit}"}`
  const [low = '', high = ''] = limits
  const range = [low === '' ? '' : `"low":${quantity(low)}`, high === '' ? '' : `"high":${quantity(high)}`].filter((part) => part !== '')
  return `{"resourceType":"Observation","status":"${status}","code":{"coding":[{"system":"http://loinc.org","code":"${code}"}]},${[
    `"subject":{"reference":"Patient/p${patient}"},"effectiveDateTime":"${on}","identifier":[{"value":"${accession}"}]`,
    // A value without unit may come as a text.
    unit === '' ? `"valueString":"${value}"` : `"valueQuantity":${quantity(number, comparator === '' ? '' : `,"comparator":"${comparator}"`)}`,
    ...(range.length === 0 ? [] : [`"referenceRange":[{${range.join(',')}}]`]),
  ].join(',')}}`
}

function resources(all: readonly Sample[]): readonly string[] {
  const people = [...new Set(all.map(({ patient }) => patient))].map(
    (id) => `{"resourceType":"Patient","id":"p${id}","identifier":[{"value":"${id}"}],"birthDate":"1950-03-12","gender":"female"}`,
  )
  return [...people, ...all.map(observation)]
}

export function bundle(all: readonly Sample[]): string {
  return `{"resourceType":"Bundle","type":"collection","entry":[${resources(all)
    .map((one) => `{"resource":${one}}`)
    .join(',')}]}`
}

export function ndjson(all: readonly Sample[]): string {
  return `${resources(all).join('\n')}\n`
}
