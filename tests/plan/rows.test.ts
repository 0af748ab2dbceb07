import { describe, expect, test } from 'vitest'
import type { TestGroup } from '../../lib/plan/index.ts'
import { day } from '../../lib/time/index.ts'
import type { HistoryWords } from '../builders/history.ts'
import { dueDays, dueOn } from './due.ts'
import { blood, immunoglobulins, urine } from './visits.ts'

const BLOOD: readonly TestGroup[] = ['serum-m-protein', 'free-light-chains', 'blood-count', 'chemistry']
const allBlood = (on: string) => Object.fromEntries(BLOOD.map((group) => [group, on]))

const mgus = (more: HistoryWords): HistoryWords => ({ diagnosis: ['2020-01-15', 'mgus', { heavy: 'G', light: 'kappa' }], ...more })
const smouldering = (more: HistoryWords): HistoryWords => ({ diagnosis: ['2020-01-15', 'smouldering', { heavy: 'G', light: 'kappa' }], ...more })
const active = (more: HistoryWords): HistoryWords => ({
  diagnosis: ['2020-01-15', 'active', { heavy: 'G', light: 'kappa' }],
  lines: [{ start: '2020-02-01' }],
  ...more,
})

describe('a line that has just begun', () => {
  test('asks for nothing before its first day, however old the last sample is', () => {
    const dueAfter = (on: string) => dueDays(active({ results: blood(on) }), '2020-02-02')
    expect(dueAfter('2020-01-03')).toMatchObject(allBlood('2020-02-01'))
    expect(dueAfter('2020-01-04')).toMatchObject(allBlood('2020-02-01'))
    expect(dueAfter('2020-01-05')).toMatchObject(allBlood('2020-02-02'))
  })
})

describe('MGUS', () => {
  test('6 months after the diagnosis where nothing was done yet', () => {
    expect(dueDays(mgus({}), '2020-02-01')).toEqual(allBlood('2020-07-15'))
  })

  test('6 months once: a sample up to the grace before the end of the 6 months is still inside them', () => {
    // Half a year from 2020-01-15 is 2020-07-15; a quarter of it is 45 days, so the grace is 30: 2020-06-15.
    expect(dueDays(mgus({ results: blood('2020-06-14', '10') }), '2020-06-20')).toEqual(allBlood('2020-12-14'))
    expect(dueDays(mgus({ results: blood('2020-06-15', '10') }), '2020-06-20')).toEqual(allBlood('2022-06-15'))
  })

  test('low risk (IgG, below 15 g/L, normal ratio) then every 24 months; 15 g/L, another class or anything unknown every 12', () => {
    const from = (more: HistoryWords) => dueDays(mgus(more), '2020-08-01')
    expect(from({ results: blood('2020-07-15', '14.9') })).toEqual(allBlood('2022-07-15'))
    expect(from({ results: blood('2020-07-15', '15') })).toEqual(allBlood('2021-07-15'))
    expect(from({ results: blood('2020-07-15', '10'), diagnosis: ['2020-01-15', 'mgus', { heavy: 'A', light: 'kappa' }] })).toEqual(
      allBlood('2021-07-15'),
    )
    expect(from({ results: blood('2020-07-15', '10'), diagnosis: ['2020-01-15', 'mgus', {}] })).toEqual(allBlood('2021-07-15'))
  })

  test('months are calendar months: half a year after 31 August is the last of February', () => {
    expect(dueDays({ diagnosis: ['2020-08-31', 'mgus'] }, '2020-09-01')).toEqual(allBlood('2021-02-28'))
  })

  test('neither urine nor imaging nor immunoglobulins', () => {
    expect(dueDays(mgus({ results: [...blood('2020-01-15'), ...urine('2020-01-15', '900')] }), '2020-02-01')).toEqual(allBlood('2020-07-15'))
  })
})

describe('smouldering', () => {
  const imaging = { imaging: '2021-01-15' }

  test('0 or 1 factor: 3 months once, 6 months until 3 + 12 months, then 12 months', () => {
    const from = (last: string, today: string) => dueDays(smouldering({ results: blood(last) }), today)
    expect(from('2020-01-15', '2020-02-01')).toEqual({ ...allBlood('2020-04-15'), ...imaging })
    // 91 days to 2020-04-15, so a grace of 22: 2020-03-24.
    expect(from('2020-03-23', '2020-03-25')).toEqual({ ...allBlood('2020-06-23'), ...imaging })
    expect(from('2020-03-24', '2020-03-25')).toEqual({ ...allBlood('2020-09-24'), ...imaging })
    // 15 months end on 2021-04-15; a grace of 30 days before: 2021-03-16.
    expect(from('2021-03-15', '2021-03-20')).toEqual({ ...allBlood('2021-09-15'), ...imaging })
    expect(from('2021-03-16', '2021-03-20')).toEqual({ ...allBlood('2022-03-16'), ...imaging })
  })

  test('2 or more factors of 20/2/20: every 3 months for good', () => {
    const high = (serum: string) => smouldering({ results: blood('2023-05-10', serum), marrow: [['2020-01-15', '25']] })
    expect(dueDays(high('20.1'), '2023-06-01')).toMatchObject(allBlood('2023-08-10'))
    expect(dueDays(high('20'), '2023-06-01')).toMatchObject(allBlood('2024-05-10'))
  })

  test('urine only where it was measurable at baseline', () => {
    const with24h = (value: string) => dueDays(smouldering({ results: [...blood('2020-01-15'), ...urine('2020-01-15', value)] }), '2020-02-01')
    expect(with24h('200')).toMatchObject({ 'urine-24h': '2020-04-15' })
    expect(with24h('199')).not.toHaveProperty('urine-24h')
  })

  test('imaging every 12 months for 5 years', () => {
    const imagingAfter = (last: string) => dueDays(smouldering({ imaging: [[last, 'mri']] }), '2025-01-10')
    expect(imagingAfter('2024-01-10')).toMatchObject({ imaging: '2025-01-10' })
    // Five years end on 2025-01-15; a grace of 30 days before: 2024-12-16.
    expect(imagingAfter('2024-12-15')).toMatchObject({ imaging: '2025-12-15' })
    expect(imagingAfter('2024-12-16')).not.toHaveProperty('imaging')
  })

  test('a later phase counts from its own first day where nothing was done', () => {
    expect(dueDays({ diagnosis: ['2018-01-15', 'mgus'], phases: [['2020-01-15', 'smouldering']] }, '2020-02-01')).toMatchObject(
      allBlood('2020-04-15'),
    )
  })
})

describe('active', () => {
  test('on treatment: 28 days, immunoglobulins and measurable urine 84', () => {
    const results = [...blood('2020-02-01'), ...urine('2020-02-01'), ...immunoglobulins('2020-02-01')]
    expect(dueDays(active({ results }), '2020-02-10')).toEqual({
      ...allBlood('2020-02-29'),
      'urine-24h': '2020-04-25',
      immunoglobulins: '2020-04-25',
    })
  })

  test('from the start of the line where nothing was done yet; without a line from the first day of the phase, off treatment', () => {
    expect(dueDays(active({}), '2020-02-10')).toEqual({ ...allBlood('2020-02-29'), immunoglobulins: '2020-04-25' })
    expect(dueDays(active({ lines: [] }), '2020-02-10')).toEqual(allBlood('2020-04-08'))
  })

  test('maintenance and off treatment: 84 days, no immunoglobulins', () => {
    const results = blood('2020-02-01')
    expect(dueDays(active({ results, lines: [{ start: '2020-02-01', intent: 'maintenance' }] }), '2020-02-10')).toEqual(allBlood('2020-04-25'))
    expect(dueDays(active({ results, lines: [{ start: '2020-02-01', end: '2020-02-05' }] }), '2020-02-10')).toEqual(allBlood('2020-04-25'))
  })

  test('the other phases are followed like active disease', () => {
    expect(dueDays({ diagnosis: ['2020-02-01', 'amyloidosis'], lines: [{ start: '2020-02-01' }] }, '2020-02-10')).toMatchObject(
      allBlood('2020-02-29'),
    )
  })

  test('an unconfirmed finding asks for its test 28 days after its sample, urine measurable or not', () => {
    const results = [...blood('2020-02-01'), ...urine('2020-02-01', '50')]
    const offTreatment = active({ results, lines: [{ start: '2020-01-20', end: '2020-01-25' }] })
    const repeats = (['serum-m-protein', 'urine-24h'] as const).map((group) => ({ group, sampledOn: day('2020-02-01') }))
    expect(dueDays(offTreatment, '2020-02-10', repeats)).toEqual({
      ...allBlood('2020-04-25'),
      'serum-m-protein': '2020-02-29',
      'urine-24h': '2020-02-29',
    })
  })

  test('a repeat that has been done is not asked for again', () => {
    const offTreatment = active({ results: blood('2020-03-01'), lines: [] })
    expect(dueDays(offTreatment, '2020-03-02', [{ group: 'chemistry', sampledOn: day('2020-02-01') }])).toEqual(allBlood('2020-05-24'))
  })

  test('a repeat is for active disease only', () => {
    const repeats = [{ group: 'chemistry', sampledOn: day('2020-02-01') }] as const
    expect(dueDays(mgus({ results: blood('2020-02-01') }), '2020-02-10', repeats)).toEqual(allBlood('2020-08-01'))
  })
})

describe('bone agent', () => {
  const given = (agent: string[]) => dueDays(mgus({ results: blood('2020-02-01'), boneAgents: [['2020-02-01', agent]] }), '2020-02-10').chemistry

  test('chemistry every 28 days with zoledronic acid or pamidronate, in any phase; another agent changes nothing', () => {
    expect(given(['zoledronic acid'])).toBe('2020-02-29')
    expect(given(['Pamidronate'])).toBe('2020-02-29')
    expect(given([])).toBe('2020-02-29')
    expect(given(['denosumab'])).toBe('2020-08-01')
  })

  test('from the first dose where chemistry was never done', () => {
    expect(dueDays({ boneAgents: [['2020-03-10'], ['2020-02-10']] }, '2020-04-01')).toEqual({ chemistry: '2020-03-09' })
  })
})

describe('nobody', () => {
  test('without a recorded phase nothing is due', () => {
    expect(dueDays({ results: blood('2020-02-01') }, '2020-12-01')).toEqual({})
  })

  test('nothing is due from the day a patient left; the day before, it was', () => {
    const left = active({ left: ['2020-06-01', 'transferred'] })
    expect(dueOn(left, '2020-06-01')).toEqual([])
    expect(dueDays(left, '2020-05-31')).toMatchObject(allBlood('2020-02-29'))
    expect(dueOn(active({ status: ['died', '2020-06-01'] }), '2020-06-01')).toEqual([])
  })
})
