import fc from 'fast-check'
import { bytesOf } from '../rows.ts'
import { type Fields, grams, json, loinc, patientResource } from './resources.ts'

/** Texts whose bytes a block may cut: characters of two, three and four bytes, escapes, what looks like JSON. */
const WORDS = ['North', 'Zürich', '検査', '\u{1f9ea} 4', 'a"b\\c', '}]{[,":', '\u0001\n', '']
const IDS = ['a', 'b']
const word = fc.constantFrom(...WORDS)
const id = fc.constantFrom(...IDS)
const TYPES = ['Patient', 'Observation', 'Specimen', 'Organization', 'Device', 'DiagnosticReport']

const url = fc.oneof(
  fc.tuple(fc.constantFrom(...TYPES), id).map(([type, one]) => `http://example.org/${type}/${one}`),
  fc.tuple(fc.constantFrom(...TYPES), id).map(([type, one]) => `https://elsewhere.example/${type}/${one}/_history/1`),
  id.map((one) => `urn:uuid:${one}`),
)
const reference = (...types: string[]) =>
  fc.oneof(
    { weight: 2, arbitrary: url },
    { weight: 12, arbitrary: fc.tuple(fc.constantFrom(...types), id).map(([type, one]) => `${type}/${one}`) },
    { weight: 1, arbitrary: id.map((one) => `#${one}`) },
    { weight: 1, arbitrary: fc.constantFrom('', '#', 'Observation/a/_history/2') },
  )
const to = (...types: string[]) => reference(...types).map((one) => ({ reference: one }))
const maybe = (name: string, value: fc.Arbitrary<unknown>): fc.Arbitrary<Fields> =>
  fc.option(value, { nil: undefined }).map((one) => (one === undefined ? {} : { [name]: one }))
const together = (...parts: fc.Arbitrary<Fields>[]): fc.Arbitrary<Fields> => fc.tuple(...parts).map((all) => Object.assign({}, ...all) as Fields)
const identifiers = fc.array(
  word.map((value) => ({ value })),
  { maxLength: 2 },
)
const MODIFIER = fc.constant([{ url: 'http://example.org/not' }])
const rarely = (name: string, value: fc.Arbitrary<unknown>): fc.Arbitrary<Fields> =>
  fc.tuple(fc.nat(15), value).map(([chance, one]) => (chance === 0 ? { [name]: one } : {}))

const patient = together(
  fc.constant(patientResource()),
  id.map((one) => ({ id: one })),
  rarely('identifier', identifiers),
  rarely('active', fc.constantFrom<unknown>(false, 'no')),
  rarely('modifierExtension', MODIFIER),
)
const component = fc.record({ code: fc.constantFrom(loinc('718-7'), {}), valueQuantity: fc.constantFrom<unknown>(grams('1.0'), { value: '1' }) })
const observation = (contained: fc.Arbitrary<Fields>): fc.Arbitrary<Fields> =>
  together(
    fc.constant({ resourceType: 'Observation', status: 'final', effectiveDateTime: '2026-06-01' }),
    maybe('id', id),
    word.map((text) => ({ code: { text } })),
    maybe('subject', to('Patient')),
    maybe('valueQuantity', fc.constant(grams('14.20'))),
    maybe('specimen', to('Specimen')),
    maybe('performer', fc.array(to('Organization'), { maxLength: 2 })),
    maybe('device', to('Device')),
    maybe('component', fc.array(component, { maxLength: 3 })),
    rarely('component', fc.constantFrom<unknown>({}, [null])),
    rarely('hasMember', fc.array(to('Observation'), { maxLength: 2 })),
    rarely('contained', fc.array(contained, { maxLength: 2 })),
    rarely('modifierExtension', MODIFIER),
  )
const named = fc.oneof(
  together(
    fc.constant({ resourceType: 'Specimen' }),
    maybe('id', id),
    word.map((value) => ({ accessionIdentifier: { value }, collection: { collectedDateTime: '2026-05-31' } })),
  ),
  together(
    fc.constant({ resourceType: 'Organization' }),
    maybe('id', id),
    word.map((name) => ({ name })),
  ),
  together(fc.constant({ resourceType: 'Device' }), maybe('id', id), fc.constant({ deviceName: [{ name: 'M1' }] })),
)
const inner = observation(fc.constant({ resourceType: 'Specimen', id: 'a' }))
const report = together(
  fc.constant({ resourceType: 'DiagnosticReport' }),
  maybe('id', id),
  maybe('identifier', identifiers),
  maybe('performer', fc.array(to('Organization'), { maxLength: 2 })),
  maybe('result', fc.array(to('Observation'), { maxLength: 4 })),
  rarely('contained', fc.array(inner, { maxLength: 2 })),
  rarely('implicitRules', fc.constant('x')),
)
const other = fc.constantFrom<Fields>({}, { resourceType: 'Bundle', type: 'batch', entry: [] }, { resourceType: 5, id: 'a' })
const resource = fc.oneof(
  { weight: 3, arbitrary: patient },
  { weight: 6, arbitrary: observation(fc.oneof(patient, inner, named)) },
  { weight: 3, arbitrary: report },
  { weight: 3, arbitrary: named },
  { weight: 1, arbitrary: other },
)
const entry = fc.oneof(
  {
    weight: 12,
    arbitrary: together(
      maybe('fullUrl', url),
      resource.map((one) => ({ resource: one })),
      rarely('request', fc.constant({ method: 'DELETE' })),
    ),
  },
  { weight: 1, arbitrary: fc.constantFrom<unknown>(null, 5, 'text', {}, [], { modifierExtension: [] }, { fullUrl: 5, resource: { id: 'a' } }) },
)
const bundle = fc
  .record({
    entries: fc.array(entry, { maxLength: 16, size: 'max' }),
    isLast: fc.boolean(),
    more: rarely('entry', fc.constantFrom<unknown>(null, {}, 'x')),
    note: word,
  })
  .map(({ entries, isLast, more, note }) => {
    const kind = { resourceType: 'Bundle', note, type: 'collection' }
    return isLast ? { entry: entries, ...kind, ...more } : { ...kind, entry: entries, ...more }
  })

const indent = fc.constantFrom(0, 0, 1, 2)
const before = fc.constantFrom('', '', '\ufeff', ' \r\n\t', '\ufeff\n\n')
/** The bytes of a good file: a Bundle, NDJSON, or one resource. */
export const anyFile: fc.Arbitrary<Uint8Array> = fc
  .oneof(
    { weight: 3, arbitrary: fc.tuple(bundle, indent).map(([one, spaces]) => spaced(json(one), spaces)) },
    {
      weight: 2,
      arbitrary: fc
        .tuple(
          fc.array(fc.oneof({ weight: 15, arbitrary: resource }, { weight: 1, arbitrary: fc.constant(5) }), { maxLength: 16, size: 'max' }),
          fc.constantFrom('\n', '\r\n', '\n\n'),
        )
        .map(([all, end]) => all.map((one) => json(one) + end).join('')),
    },
    { weight: 1, arbitrary: fc.tuple(resource, indent).map(([one, spaces]) => spaced(json(one), spaces)) },
  )
  .chain((text) => before.map((blanks) => bytesOf(blanks + text)))

/** More lines and blanks, outside texts alone: no number may change its digits. */
function spaced(text: string, spaces: number): string {
  if (spaces === 0) return text
  return text.replace(/"(?:[^"\\]|\\.)*"|[{}[\]:,]/g, (mark) => (mark.length > 1 ? mark : `${' '.repeat(spaces)}${mark}\n`))
}
