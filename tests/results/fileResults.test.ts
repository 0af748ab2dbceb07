import { describe, expect, test } from 'vitest'
import { currentVersion, decideFiling, type IncomingResult, type ResultStatus, resultIdentity } from '../../lib/results/index.ts'
import { parseMoment } from '../../lib/time/index.ts'
import { exactly } from '../../lib/units/index.ts'

type Versioned = IncomingResult & { readonly version: number }

function moment(text: string) {
  const read = parseMoment(text)
  if (read === null) throw new RangeError(text)
  return read
}

function report(
  value: string,
  status: ResultStatus = 'final',
  reported: string | null = null,
  changes: Partial<IncomingResult> = {},
): IncomingResult {
  const at = exactly(value)
  return {
    patientId: 'P1',
    analyte: 'serum-m-protein',
    code: '33358-3',
    collected: moment('2026-06-01'),
    status,
    accession: 'A1',
    laboratory: 'North',
    method: null,
    value: { kind: 'number', comparator: null, kept: at, printed: at, printedUnit: 'g/L' },
    referenceLow: null,
    referenceHigh: null,
    reportedAt: reported === null ? null : moment(reported),
    provenance: { line: 2, valueText: value, unitText: 'g/L' },
    ...changes,
  }
}

/** Files reports one after the other; rows held are tried again after each one filed, as intake does. */
function arrive(reports: readonly IncomingResult[]): { readonly outcomes: readonly string[]; readonly stored: readonly Versioned[] } {
  const stored: Versioned[] = []
  let waiting: IncomingResult[] = []
  const file = (incoming: IncomingResult): string => {
    const filing = decideFiling(incoming, stored)
    if (filing.outcome === 'held') return filing.reason
    if (filing.outcome !== 'known') stored.push({ ...incoming, version: filing.version })
    return filing.outcome
  }
  const outcomes = reports.map((incoming) => {
    const outcome = file(incoming)
    if (outcome === 'correction-before-original') waiting.push(incoming)
    else waiting = waiting.filter((row) => file(row) === 'correction-before-original')
    return outcome
  })
  return { outcomes, stored }
}

const counting = (reports: readonly IncomingResult[]): string => {
  const current = currentVersion(arrive(reports).stored)
  return current === null ? 'none' : `${current.provenance.valueText} ${current.status}`
}

describe('one result, told more than once', () => {
  test.each<[string, readonly IncomingResult[], readonly string[], string]>([
    ['the same again', [report('10'), report('10.0')], ['filed', 'known'], '10 final'],
    ['a correction', [report('10'), report('12', 'corrected')], ['filed', 'corrected'], '12 corrected'],
    [
      'the original sent again after its correction',
      [report('10'), report('12', 'corrected'), report('10')],
      ['filed', 'corrected', 'known'],
      '12 corrected',
    ],
    ['preliminary, then final', [report('10', 'preliminary'), report('11')], ['filed', 'corrected'], '11 final'],
    [
      'final, then the same as preliminary, after the final was cancelled too',
      [report('10'), report('10', 'preliminary'), report('10', 'cancelled'), report('10', 'preliminary')],
      ['filed', 'known', 'corrected', 'known'],
      '10 cancelled',
    ],
    ['preliminary, then the same as final', [report('10', 'preliminary'), report('10')], ['filed', 'corrected'], '10 final'],
    ['another value without correction', [report('10'), report('11')], ['filed', 'conflicting-value'], '10 final'],
    [
      'a comparator that changes',
      [report('10'), report('10', 'final', null, { value: { kind: 'not-detected' } })],
      ['filed', 'conflicting-value'],
      '10 final',
    ],
    ['a correction before its original', [report('12', 'corrected')], ['correction-before-original'], 'none'],
    ['entered in error before its original', [report('12', 'entered-in-error')], ['correction-before-original'], 'none'],
    ['entered in error', [report('10'), report('10', 'entered-in-error')], ['filed', 'corrected'], '10 entered-in-error'],
    ['cancelled without original', [report('10', 'cancelled')], ['filed'], '10 cancelled'],
    [
      'a new result after a cancellation',
      [report('10', 'cancelled', '2026-06-02'), report('11', 'final', '2026-06-03')],
      ['filed', 'conflicting-value'],
      '10 cancelled',
    ],
    [
      'corrected, and corrected back',
      [report('10'), report('12', 'corrected', '2026-06-02'), report('13', 'corrected', '2026-06-03'), report('12', 'corrected', '2026-06-04')],
      ['filed', 'corrected', 'corrected', 'corrected'],
      '12 corrected',
    ],
  ])('%s', (_what, reports, outcomes, current) => {
    expect(arrive(reports).outcomes).toEqual(outcomes)
    expect(counting(reports)).toBe(current)
  })
})

function orders<Item>(items: readonly Item[]): readonly (readonly Item[])[] {
  if (items.length < 2) return [items]
  return items.flatMap((item, at) => orders(items.toSpliced(at, 1)).map((rest) => [item, ...rest]))
}

test.each<[string, readonly IncomingResult[], string]>([
  ['two corrections', [report('10'), report('12', 'corrected', '2026-06-02'), report('13', 'corrected', '2026-06-03')], '13 corrected'],
  [
    'preliminary, final, withdrawn',
    [report('9', 'preliminary', '2026-06-01'), report('10', 'final', '2026-06-02'), report('10', 'entered-in-error', '2026-06-03')],
    '10 entered-in-error',
  ],
  ['final, cancelled', [report('10', 'final', '2026-06-02'), report('10', 'cancelled', '2026-06-03')], '10 cancelled'],
  ['preliminary and final without report times', [report('9', 'preliminary'), report('10')], '10 final'],
])('order of arrival changes nothing: %s', (_what, reports, current) => {
  for (const order of orders(reports)) expect(counting(order)).toBe(current)
})

test('identity is accession where there is one, else the moment of collection', () => {
  expect(resultIdentity(report('1'))).toBe(resultIdentity(report('2', 'corrected', null, { collected: moment('2026-06-02') })))
  const bare = (collected: string): string => resultIdentity(report('1', 'final', null, { accession: null, collected: moment(collected) }))
  expect(bare('2026-06-01T08:00+01:00')).toBe(bare('2026-06-01T07:00Z'))
  expect(bare('2026-06-01')).not.toBe(bare('2026-06-01T00:00Z'))
  expect(resultIdentity(report('1', 'final', null, { accession: '2026-06-01' }))).not.toBe(bare('2026-06-01'))
})

test('a conflict names what is stored and what is needed', () => {
  const held = decideFiling(report('11'), [{ ...report('10'), version: 1 }])
  expect(held.outcome === 'held' ? held.sentence : '').toBe(
    "For accession A1 and code 33358-3 a final result is stored; another value, 11 g/L, needs the status corrected, or a person's decision.",
  )
})
