import { expect, test } from 'vitest'
import { CAUTION_SAYS } from '../../lib/rules/cautionSays.ts'
import { RULES } from '../../lib/rules/courseRules.ts'
import { COURSE_SENTENCES } from '../../lib/rules/courseSentences.ts'
import { DRIFT_FOLLOW_UP_RULES } from '../../lib/rules/drift/index.ts'
import { DRIFT_SENTENCES } from '../../lib/rules/driftSentences.ts'
import { CAUTIONS } from '../../lib/rules/finding.ts'
import { says as saysOf } from '../../lib/rules/sentences.ts'
import type { HistoryWords } from '../builders/history.ts'
import { active, every4Weeks, smouldering } from './patients.ts'
import { currentBy } from './ruleTable.ts'

type Told = keyof typeof COURSE_SENTENCES
const says = (rule: Told, given: HistoryWords, today?: string) => currentBy(rule, given, today).map(saysOf)
const serum = (values: string[]) => every4Weeks('serum-m-protein', 'g/L', values)

test('a rise is told with its numbers, its criterion and what stands behind it', () => {
  expect(says('pd-serum', active(serum(['10', '15'])))).toEqual([
    'M-protein 15 g/L on 2024-07-01 is 5 g/L (50 %) above the lowest value 10 g/L of 2024-06-03; criterion: rise of at least 25 % and 5 g/L, or of at least 10 g/L from 50 g/L or more. Second sample not yet there. About 2 in 10 that the true rise exceeds the criterion.',
  ])
  expect(says('pd-serum', active(serum(['10', '15', '16'])))[0]).toContain('Confirmed by the sample of 2024-07-01.')
  expect(says('pd-serum', active(serum(['<1', '5.5'])))[0]).toContain('held against the lowest value <1 g/L of 2024-06-03')
  expect(says('pd-serum', active(serum(['not detected', '6'])))[0]).toContain('is 6 g/L above the lowest value not detected of 2024-06-03')
})

test('organ damage says what else to rule out, in the unit the laboratory printed', () => {
  const [sentence] = says('mde-calcium', smouldering(every4Weeks('calcium', 'mg/dL', ['11.1'])))
  expect(sentence).toContain('Calcium 11.1 mg/dL on 2024-06-03; limit: above 11 mg/dL.')
  expect(sentence).toContain('Counts only if due to the clone; rule out')
})

test('a light-chain event names both chains and the ratio', () => {
  const given = smouldering([...every4Weeks('kappa-flc', 'mg/L', ['150']), ...every4Weeks('lambda-flc', 'mg/L', ['1.2'])])
  expect(says('mde-light-chain', given)[0]).toContain('Involved light chain 150 mg/L, uninvolved 1.2 mg/L on 2024-06-03, ratio 125.0')
})

test('danger is told with its limit', () => {
  expect(says('danger-neutrophils', active([['2024-06-03', 'neutrophils', '0.4']]), '2024-06-04')).toEqual([
    'Neutrophils 0.4 x 10^9/L on 2024-06-03 is below 0.5 x 10^9/L.',
  ])
})

test('every rule of the course has its sentence, every caution its words', () => {
  const told = [...Object.keys(COURSE_SENTENCES), ...Object.keys(DRIFT_SENTENCES)]
  expect(told.sort()).toEqual([...RULES, ...DRIFT_FOLLOW_UP_RULES].map(({ id }) => id).sort())
  expect(Object.keys(CAUTION_SAYS).sort()).toEqual([...CAUTIONS].sort())
})

test('every rule says what it asks and where it comes from', () => {
  for (const { asks, source } of [...RULES, ...DRIFT_FOLLOW_UP_RULES]) {
    expect(asks).toMatch(/\?$/)
    expect(source.length).toBeGreaterThan(5)
  }
})
