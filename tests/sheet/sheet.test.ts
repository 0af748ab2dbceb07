import { describe, expect, test } from 'vitest'
import { DEFAULT_PLAN } from '../../lib/plan/index.ts'
import { offersOf, type Sheet, type SheetTest, sheetOf } from '../../lib/sheet/index.ts'
import { assess } from '../../lib/standing/index.ts'
import { day } from '../../lib/time/index.ts'
import { exclusion } from '../builders/decision.ts'
import { type HistoryWords, history, series } from '../builders/history.ts'

const ACTIVE: HistoryWords = {
  diagnosis: ['2024-01-10', 'active', { heavy: 'G', light: 'kappa' }],
  lines: [{ start: '2024-01-20', regimen: ['bortezomib'] }],
}
const TODAY = '2026-11-25'

function made(words: HistoryWords, chosen: readonly SheetTest[], earlier: readonly Sheet[] = [], today = TODAY): Sheet {
  return sheetOf(assess(history({ ...ACTIVE, ...words }), DEFAULT_PLAN, day(today)), { chosen, own: null, visitOn: null, earlier })
}

function item(words: HistoryWords, of: SheetTest = 'serum-m-protein', earlier: readonly Sheet[] = []) {
  const [only] = made(words, [of], earlier).items
  if (only === undefined) throw new Error('there is no such test on the sheet')
  return only
}

const serum = (values: Readonly<Record<string, string>>, unit = 'g/L', more = {}) => ({ results: series('serum-m-protein', unit, values, more) })
const LOOKED_AT = 'One result says little on its own, so your team will look at it with you.'
const UNSURE = 'We can not say if it went up or down, since one of the two is not a full number.'

describe('what happened since the one before', () => {
  test.each<[string, Record<string, string>, readonly string[]]>([
    ['up: both numbers, and the team looks at it', { '2026-05-01': '9.9', '2026-11-01': '10' }, ['It went up from 9.9 g/L to 10 g/L.', LOOKED_AT]],
    ['down', { '2026-05-01': '10', '2026-11-01': '9.9' }, ['It went down from 10 g/L to 9.9 g/L.']],
    ['the same, however it is written', { '2026-05-01': '10.0', '2026-11-01': '10' }, ['It is the same as the one before.']],
    ['the first', { '2026-11-01': '10' }, ['This is your first result of this test.']],
    ['both below a limit', { '2026-05-01': '<1', '2026-11-01': '<1' }, ['Both times there was too little to measure.']],
    [
      'from a limit to a number above it',
      { '2026-05-01': '<1', '2026-11-01': '3' },
      ['It went up from too little to measure (less than 1 g/L) to 3 g/L.', LOOKED_AT],
    ],
    ['from a limit to a number within it', { '2026-05-01': '<1', '2026-11-01': '0.5' }, [UNSURE]],
  ])('%s', (_, values, says) => {
    expect(item(serum(values)).change.slice(0, says.length)).toEqual(says)
  })

  test('a fall of the red blood is one the team looks at, a rise is not', () => {
    const change = (values: Record<string, string>) => item({ results: series('haemoglobin', 'g/L', values) }, 'haemoglobin').change
    expect(change({ '2026-05-01': '120', '2026-11-01': '101' })).toContain(LOOKED_AT)
    expect(change({ '2026-05-01': '101', '2026-11-01': '120' })).not.toContain(LOOKED_AT)
  })

  test('another laboratory is said', () => {
    const results = [
      ...serum({ '2026-05-01': '10' }, 'g/L', { laboratory: 'North' }).results,
      ...serum({ '2026-11-01': '9' }, 'g/L', { laboratory: 'South' }).results,
    ]
    expect(item({ results }).change).toContain('The one before came from another lab or was done in another way, so the two may not match.')
  })
})

describe('values', () => {
  test('this result, the one before and the lowest of the line, with days as they are said', () => {
    const { values } = item(serum({ '2024-01-18': '40', '2025-03-04': '2.50', '2026-05-01': '3.1', '2026-11-01': '4' }))
    expect(values.map(({ which, label, day: on, text }) => [which, label, on, text])).toEqual([
      ['this', 'This result', '1 November 2026', '4 g/L'],
      ['last', 'The one before', '1 May 2026', '3.1 g/L'],
      ['lowest', 'Lowest since this treatment began', '4 March 2025', '2.50 g/L'],
    ])
  })

  test('without a line the lowest tells from when on it is looked for', () => {
    const words = { ...serum({ '2024-01-10': '12', '2026-11-01': '11' }), diagnosis: ['2024-01-10', 'mgus'], lines: [] } satisfies HistoryWords
    expect(item(words).values.at(-1)?.label).toBe('Lowest since 10 January 2024')
  })

  test('in different units all stand exact in the unit kept, and that is said', () => {
    const results = [...serum({ '2024-01-18': '40', '2026-05-01': '12' }).results, ...serum({ '2026-11-01': '1.15' }, 'g/dL').results]
    const { values, change } = item({ results })
    expect(values.map(({ text }) => text)).toEqual(['11.5 g/L', '12 g/L', '11.5 g/L'])
    expect(change).toContain('The labs use more than one unit, so all are shown in g/L here.')
  })

  test('words, limits and cells of the marrow', () => {
    expect(item({ results: [['2026-11-01', 'serum-m-protein', 'not detected', '']] }).values[0]?.text).toBe('none found')
    expect(item(serum({ '2026-11-01': '>90' })).values[0]?.text).toBe('more than 90 g/L')
    expect(item({ marrow: [['2026-01-05', '15']] }, 'marrow').values[0]?.text).toBe('15 of 100 cells')
  })

  test('what was excluded appears nowhere, not in the lowest either', () => {
    const words = serum({ '2024-01-18': '40', '2026-05-01': '3', '2026-11-01': '12' })
    const sheet = JSON.stringify(made({ ...words, decisions: [exclusion(1, '2026-06-01', 2)] }, ['serum-m-protein']))
    expect(sheet).not.toContain('3 g/L')
    expect(sheet).toContain('12 g/L')
  })
})

describe('values told on an earlier sheet', () => {
  const EARLIER = made(serum({ '2026-05-01': '30', '2026-06-01': '31' }), ['serum-m-protein'], [], '2026-06-10')
  const corrected = [['2026-05-01', 'serum-m-protein', '13', 'g/L', { status: 'corrected', version: 2 }]] as const

  test('a correction is told to whoever was given the value before', () => {
    const results = [...corrected, ...serum({ '2026-06-01': '31' }).results]
    expect(item({ results }, 'serum-m-protein', [EARLIER]).change).toContain(
      'Your sheet of 10 June 2026 said 30 g/L for 1 May 2026. The lab has put that right: use the number here.',
    )
  })

  test('and to nobody else', () => {
    const results = [...corrected, ...serum({ '2026-06-01': '31' }).results]
    expect(JSON.stringify(item({ results }))).not.toMatch(/put that right|said 30/)
  })

  test('a value that counts no more is taken back', () => {
    const words = { ...serum({ '2026-05-01': '30', '2026-06-01': '31' }), decisions: [exclusion(1, '2026-06-20', 2)] }
    expect(item(words, 'serum-m-protein', [EARLIER]).change).toContain(
      'Your sheet of 10 June 2026 said 31 g/L for 1 June 2026. That number does not count any more.',
    )
  })

  test('nothing is said where nothing changed', () => {
    expect(item(serum({ '2026-05-01': '30', '2026-06-01': '31' }), 'serum-m-protein', [EARLIER]).change.join(' ')).not.toContain('Your sheet')
  })
})

describe('the rest of the sheet', () => {
  test('what was chosen and has no result is not measured yet', () => {
    const { notMeasured, items } = made(serum({ '2026-11-01': '4' }), ['serum-m-protein', 'calcium'])
    expect([items.map(({ test: one }) => one), notMeasured]).toEqual([['serum-m-protein'], ['Calcium in your blood']])
  })

  test('what waits in the held queue is said, without its value', () => {
    expect(made({ held: [['2026-11-20', '2026-11-19']] }, ['calcium']).notes).toEqual([
      'Some of your results are still being checked, so they are not on this sheet yet.',
    ])
  })

  test('due tests by day, a day that has passed among them', () => {
    const { due, next } = made(serum({ '2026-10-01': '4', '2026-11-20': '4' }), ['calcium'])
    expect(due.find(({ tests }) => tests.includes('blood test: M-protein'))).toMatchObject({ day: '18 December 2026', hasPassed: false })
    expect(due.some(({ hasPassed }) => hasPassed)).toBe(true)
    expect(next).toEqual(['If a day has gone by, ask your team about that test.', 'Ask your team for the day of your next visit.'])
  })

  test('offers one light chain where the involved one is known, and both where it is not', () => {
    const names = (words: HistoryWords) => offersOf(assess(history(words), DEFAULT_PLAN, day(TODAY)).course).map(({ test: one }) => one)
    expect(names(ACTIVE)).toContain('involved-light-chain')
    expect(names({})).toEqual(expect.arrayContaining(['kappa-light-chain', 'lambda-light-chain']))
    expect(names({})).not.toContain('involved-light-chain')
  })
})
