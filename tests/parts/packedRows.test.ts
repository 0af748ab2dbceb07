import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { inColumns, inRows, someInColumns, someInRows } from '../../app/list/inColumns.ts'
import { type Listed, listed } from '../../app/list/listed.ts'
import { packedRows, unpackedRows } from '../../app/list/packed.ts'
import { WINDOWS } from '../../lib/rules/index.ts'
import { day } from '../../lib/time/index.ts'
import type { CohortRow, ListRow } from '../../lib/usecases/index.ts'

const ROW: ListRow = {
  position: 3,
  patientId: 'P-1',
  address: 'abc',
  name: 'Xan, Qui',
  phase: 'active',
  care: 'on-treatment',
  clinician: 'Dr K',
  window: 'within-7-days',
  rule: 'pd-serum',
  state: 'met',
  certainty: 'certain',
  why: 'It rose.',
  more: 1,
  answered: 0,
  cautions: ['laboratory-changed'],
  strip: {
    marker: 'dFLC',
    unit: 'mg/L',
    fromLabel: 'lowest',
    from: '26.9',
    current: '974',
    toLabel: 'criterion above',
    to: '126.9',
    position: 9.471,
  },
  since: day('2026-11-21'),
  daysWaiting: 5,
  nextDueOn: null,
  overdue: [
    { group: 'serum', dueOn: day('2026-11-01'), daysLate: 25 },
    { group: 'urine', dueOn: day('2026-10-01'), daysLate: 56 },
  ],
  comesBackToYou: false,
  handedOver: { by: 'nurse', on: day('2026-11-20') },
  noted: { did: 'contacted', by: 'nurse', on: day('2026-11-22') },
  round: {
    since: { isNew: true, back: ['day'], windowThen: 'within-30-days' },
    seenOn: day('2026-11-22'),
    daysOnList: 4,
    assigned: { assignmentId: 7, to: 'physician', disabled: false, isYou: false },
  },
}

describe('what the table shows of a place', () => {
  it('is what it shows, and no field more', () => {
    const { rule: _, overdue: __, patientId: ___, round: ____, ...shown } = ROW
    expect(listed(ROW)).toEqual({
      ...shown,
      id: 'P-1',
      daysOnList: 4,
      late: { days: 56, group: 'urine', more: 1 },
      news: { isNew: true, back: ['day'], windowThen: 'within-30-days' },
      soonerThan: 'within-30-days',
      has: { name: 'physician', disabled: false, isYou: false },
    })
  })

  it('names nobody under a pseudonym', () => {
    const { patientId: _, address: __, name: ___, comesBackToYou: ____, round: _____, ...rest } = ROW
    const row: CohortRow = { ...rest, pseudonym: '7K3PA-9TXCM-4HRDE' }
    expect(listed(row)).toMatchObject({ id: '7K3PA-9TXCM-4HRDE', address: null, name: null, comesBackToYou: false, news: null, has: null })
  })

  it.each([
    ['later than then', 'within-30-days', 'within-7-days', null],
    ['as then', 'within-30-days', 'within-30-days', null],
    ['sooner than then', 'within-7-days', 'next-visit', 'next-visit'],
  ] as const)('is sooner only when it stands %s', (_, window, windowThen, soonerThan) => {
    const round = ROW.round === undefined ? undefined : { ...ROW.round, since: { isNew: false, back: [], windowThen } }
    expect(listed({ ...ROW, window, ...(round === undefined ? {} : { round }) }).soonerThan).toBe(soonerThan)
  })
})

const text = fc.string({ maxLength: 12 })
const orNull = <T>(of: fc.Arbitrary<T>) => fc.option(of, { nil: null })
const someDay = fc.constantFrom(day('2026-11-01'), day('2026-11-02'))
const count = fc.nat(9)
const LISTED: fc.Arbitrary<Listed> = fc.record({
  position: count,
  id: text,
  address: orNull(text),
  name: orNull(text),
  clinician: orNull(text),
  phase: text,
  care: orNull(text),
  window: fc.constantFrom(...WINDOWS),
  state: orNull(text),
  certainty: orNull(text),
  why: text,
  more: count,
  answered: count,
  cautions: fc.array(text, { maxLength: 2 }),
  comesBackToYou: fc.boolean(),
  since: orNull(someDay),
  daysWaiting: orNull(count),
  daysOnList: orNull(count),
  nextDueOn: orNull(someDay),
  strip: fc.constantFrom(null, ROW.strip),
  late: orNull(fc.record({ days: count, group: text, more: count })),
  handedOver: orNull(fc.record({ by: text, on: someDay })),
  noted: orNull(fc.record({ did: fc.constantFrom('seen' as const, null), by: text, on: someDay })),
  news: orNull(fc.record({ isNew: fc.boolean(), back: fc.constantFrom([], ['day' as const]), windowThen: orNull(fc.constantFrom(...WINDOWS)) })),
  soonerThan: orNull(fc.constantFrom(...WINDOWS)),
  has: orNull(fc.record({ name: text, disabled: fc.boolean(), isYou: fc.boolean() })),
})

describe('rows sent by columns', () => {
  it('are the same rows again, whatever is in them', () => {
    fc.assert(
      fc.property(fc.array(LISTED, { maxLength: 6 }), (rows) => {
        // As they cross: as JSON.
        expect(unpackedRows(JSON.parse(JSON.stringify(packedRows(rows))))).toEqual(rows)
      }),
    )
  })

  it('send once what all have alike, and a name once', () => {
    const columns = inColumns([
      { a: 1, b: null, c: [] },
      { a: 1, b: 'x', c: [] },
    ])
    expect(columns).toEqual({ a: { all: 1 }, b: { each: [null, 'x'] }, c: { all: [] } })
    expect(inRows(columns, 2)).toEqual([
      { a: 1, b: null, c: [] },
      { a: 1, b: 'x', c: [] },
    ])
  })

  it('send what some have with the places of those', () => {
    const some = someInColumns([null, { a: 1 }, null, { a: 2 }])
    expect(some).toEqual({ at: [1, 3], columns: { a: { each: [1, 2] } } })
    expect([...someInRows(some)]).toEqual([
      [1, { a: 1 }],
      [3, { a: 2 }],
    ])
  })
})
