import { describe, expect, test } from 'vitest'
import { says } from '../../lib/rules/index.ts'
import type { HistoryWords, ResultRow } from '../builders/history.ts'
import { gapsOn } from './gapsOn.ts'
import { active, every4Weeks } from './patients.ts'
import { currentBy } from './ruleTable.ts'

const TODAY = '2025-06-30'
const fixed = (on: string, text: string, specimen: 'serum' | 'urine' = 'serum'): ResultRow => [on, `${specimen}-immunofixation`, text]
const complete = [fixed('2024-09-01', 'negative'), fixed('2024-09-01', 'negative', 'urine')]
const marrow = { marrow: [['2024-09-02', '4.9']] } as const
const afterResponse = (...rows: ResultRow[]): HistoryWords => active([...complete, ...rows], marrow)
const mismatch = (given: HistoryWords) => gapsOn('type-mismatch', given, TODAY)

describe('the heavy chain is lost and the light chain kept, after a complete response', () => {
  const lost = afterResponse(fixed('2024-11-01', 'free kappa'))

  test('it is not the original heavy and light chain', () => {
    expect(currentBy('relapse-from-cr', lost)).toEqual([])
  })

  test('band-needs-typing brings it to a person and does not call it another type', () => {
    const [found] = currentBy('band-needs-typing', lost)
    expect(found).toMatchObject({ window: 'next-visit', state: 'unconfirmed' })
    expect(found === undefined ? '' : says(found)).toBe(
      'Serum immunofixation on 2024-11-01 shows free kappa, after complete response on 2024-09-02. It is the original light chain without its heavy chain: the free light chains show whether it is light-chain escape. Second sample not yet there.',
    )
    expect(mismatch(lost)).toEqual([])
  })

  test('a light chain in urine beside the whole protein in serum is not told twice', () => {
    const both = afterResponse(fixed('2024-11-01', 'IgG kappa'), fixed('2024-11-01', 'free kappa', 'urine'))
    expect(currentBy('relapse-from-cr', both)).toHaveLength(1)
    expect(currentBy('band-needs-typing', both)).toEqual([])
  })
})

describe('without a complete response before', () => {
  test('type-mismatch brings it to a person', () => {
    const [found, ...more] = mismatch(
      active([fixed('2024-06-03', 'IgG kappa'), fixed('2024-11-01', 'free kappa'), fixed('2024-12-01', 'kappa light chain only')]),
    )
    expect(more).toEqual([])
    expect(found).toMatchObject({ window: 'next-visit', state: 'met', since: '2024-11-01' })
    expect(found === undefined ? '' : says(found)).toBe(
      'Serum immunofixation of 2024-12-01 shows free kappa without the IgG of the recorded diagnosis. The free light chains show whether it is light-chain escape.',
    )
  })

  test.each<[string, ResultRow[]]>([
    ['the whole protein beside it', [fixed('2024-11-01', 'IgG kappa with free kappa')]],
    ['the whole protein back', [fixed('2024-11-01', 'free kappa'), fixed('2024-12-01', 'IgG kappa')]],
    ['negative again', [fixed('2024-11-01', 'free kappa'), fixed('2024-12-01', 'negative')]],
    ['in urine only', [fixed('2024-11-01', 'free kappa', 'urine')]],
  ])('quiet: %s', (_, rows) => {
    expect(mismatch(active(rows))).toEqual([])
  })

  test('quiet in light-chain disease, where there is no heavy chain to lose', () => {
    expect(mismatch(active([fixed('2024-11-01', 'free kappa')], { diagnosis: ['2024-06-01', 'active', { heavy: 'none', light: 'kappa' }] }))).toEqual(
      [],
    )
  })
})

describe('while light-chain-escape is current', () => {
  const escaping = (text: string) =>
    active([
      ...every4Weeks('serum-m-protein', 'g/L', ['30', '10', '10', '10']),
      ...every4Weeks('kappa-flc', 'mg/L', ['90', '90', '191']),
      ...every4Weeks('lambda-flc', 'mg/L', ['10', '10', '10']),
      fixed('2024-07-29', text),
    ])

  test('it says so itself, with the immunofixation among its evidence, and type-mismatch is quiet', () => {
    const [found] = currentBy('light-chain-escape', escaping('free kappa'))
    expect(found?.evidence.at(-1)).toMatchObject({ role: 'current', analyte: 'serum-immunofixation', value: 'free kappa', collectedOn: '2024-07-29' })
    expect(found === undefined ? '' : says(found)).toMatch(/ Serum immunofixation on 2024-07-29 shows free kappa without the heavy chain\.$/)
    expect(mismatch(escaping('free kappa'))).toEqual([])
  })

  test('and does not where the heavy chain still shows', () => {
    const [found] = currentBy('light-chain-escape', escaping('IgG kappa and free kappa'))
    expect(found?.facts).not.toHaveProperty('lost')
    expect(found === undefined ? '' : says(found)).not.toContain('immunofixation')
  })
})

describe('two bands after a complete response', () => {
  test('each is a finding of its own, confirmed only by the same band', () => {
    const found = currentBy('band-needs-typing', afterResponse(fixed('2024-11-01', 'IgA lambda'), fixed('2024-12-01', 'IgM kappa and IgA lambda')))
    expect(found.map(({ facts, state, since }) => [facts.band, state, since])).toEqual([
      ['IgA lambda', 'confirmed', '2024-11-01'],
      ['IgM kappa', 'unconfirmed', '2024-12-01'],
    ])
  })

  test('another band the month before confirms nothing', () => {
    const found = currentBy('band-needs-typing', afterResponse(fixed('2024-11-01', 'IgA lambda'), fixed('2024-12-01', 'IgM kappa')))
    expect(found.map(({ facts, state }) => [facts.band, state])).toEqual([['IgM kappa', 'unconfirmed']])
  })

  test('the original one is a relapse, the other needs typing', () => {
    const both = afterResponse(fixed('2024-11-01', 'IgG kappa and IgA lambda'))
    expect(currentBy('relapse-from-cr', both).map(({ facts }) => facts.band)).toEqual(['IgG kappa'])
    expect(currentBy('band-needs-typing', both).map(({ facts }) => facts.band)).toEqual(['IgA lambda'])
  })
})

test('a band whose light chain is not named, or any where no type is recorded, cannot be told', () => {
  const [found] = currentBy('band-needs-typing', afterResponse(fixed('2024-11-01', 'IgG')))
  expect(found === undefined ? '' : says(found)).toContain('Whether it is the original type cannot be told')
})
