import { expect, test } from 'vitest'
import { traceCourse } from '../../lib/course/index.ts'
import { courseFindings, says } from '../../lib/rules/index.ts'
import { day } from '../../lib/time/index.ts'
import { type HistoryWords, history } from '../builders/history.ts'
import { active, every4Weeks, smouldering } from './patients.ts'
import { currentBy, TODAY } from './ruleTable.ts'

// clinical.md 3.8: "the largest excess over its threshold (as a ratio)". A certain finding exceeds, or reaches, the threshold it was found by.
const FOUND_BY: readonly (readonly [why: string, rule: string, given: HistoryWords, excess: number])[] = [
  ['doubled from 4 g/L: 9 over 8', 'significant-relapse', active(every4Weeks('serum-m-protein', 'g/L', ['4', '8.5', '9'])), 9 / 8],
  ['doubled from 2 g/L, where 5 g/L is more: 6 over 5', 'significant-relapse', active(every4Weeks('serum-m-protein', 'g/L', ['2', '5', '6'])), 6 / 5],
  ['up by 10 g/L from 30: 44 over 40', 'significant-relapse', active(every4Weeks('serum-m-protein', 'g/L', ['30', '40', '44'])), 44 / 40],
  ['calcium above 2.75 mmol/L', 'mde-calcium', smouldering(every4Weeks('calcium', 'mmol/L', ['3.3'])), 3.3 / 2.75],
  [
    'calcium above the laboratory’s own limit by more than 0.25 mmol/L',
    'mde-calcium',
    smouldering(every4Weeks('calcium', 'mmol/L', ['2.74'], { referenceHigh: '2.45' })),
    2.74 / 2.7,
  ],
  ['the same in mg/dL', 'mde-calcium', smouldering(every4Weeks('calcium', 'mg/dL', ['10.9'], { referenceHigh: '9.8' })), 10.9 / 10.8],
  [
    'adjusted calcium alone: 2.6 mmol/L with albumin 20 g/L is 3.0',
    'danger-calcium',
    smouldering([...every4Weeks('calcium', 'mmol/L', ['2.6']), ...every4Weeks('albumin', 'g/L', ['20'])]),
    1,
  ],
]

test.each(FOUND_BY)('%s', (_why, rule, given, excess) => {
  const found = courseFindings(traceCourse(history(given), day(TODAY))).filter((finding) => finding.rule === rule && finding.endedOn === null)
  expect(found).toHaveLength(1)
  expect(found[0]?.excess).toBeCloseTo(excess, 12)
})

test('a censored uninvolved chain is told as it was printed', () => {
  const chains = [...every4Weeks('kappa-flc', 'mg/L', ['100']), ...every4Weeks('lambda-flc', 'mg/L', ['<1'])]
  const [found] = currentBy('mde-light-chain', smouldering(chains))
  if (found === undefined) throw new Error('no mde-light-chain')
  expect(says(found)).toContain('uninvolved <1 mg/L')
})
