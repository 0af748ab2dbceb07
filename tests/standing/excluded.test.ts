import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { MARKERS } from '../../lib/course/index.ts'
import { DEFAULT_PLAN } from '../../lib/plan/index.ts'
import { ANALYTES, type History } from '../../lib/results/index.ts'
import { whySentence } from '../../lib/review/index.ts'
import { assess } from '../../lib/standing/index.ts'
import { day } from '../../lib/time/index.ts'
import { exclusion, restoration } from '../builders/decision.ts'
import { history } from '../builders/history.ts'
import { asked } from './inventedHistory.ts'

/** Everything an answer says and rests on, the decisions aside. */
function said(of: History, today: string) {
  const { course, known: _known, answers, attributions, ...told } = assess(of, DEFAULT_PLAN, day(today))
  const markers = MARKERS.map((name) => course.markers[name])
  const samples = ANALYTES.map((analyte) => course.samplesOf(analyte))
  const { lightChains, involved, marrow, hasResults, measurableBy, held } = course
  const sizes = [answers.size, attributions.size]
  return { ...told, markers, samples, lightChains, involved, marrow, hasResults, measurableBy, held, sizes }
}

const somePart = asked.chain(({ words, today }) => {
  const ids = (words.results ?? []).map((_, at) => at + 1)
  return fc.record({ of: fc.constant(history(words)), today: fc.constant(today), ids: fc.subarray(ids) })
})

const BEFORE = '2023-12-31'

test('an excluded result is as if it had never been filed: findings, due tests, response, risk, charts’ samples, and how long the answer holds', () => {
  fc.assert(
    fc.property(somePart, ({ of, today, ids }) => {
      const excluded = { ...of, decisions: ids.map((id, at) => exclusion(at + 1, BEFORE, id)) }
      const never = { ...of, results: of.results.filter((result) => !ids.includes(result.id)) }
      expect(said(excluded, today)).toEqual(said(never, today))
    }),
    { numRuns: 300 },
  )
})

test('excluded and put back is as if nothing had been decided', () => {
  fc.assert(
    fc.property(somePart, ({ of, today, ids }) => {
      const back = ids.flatMap((id, at) => [exclusion(2 * at + 1, BEFORE, id), restoration(2 * at + 2, BEFORE, id)])
      expect(said({ ...of, decisions: back }, today)).toEqual(said(of, today))
    }),
    { numRuns: 60 },
  )
})

describe('one value', () => {
  const of = history({
    diagnosis: ['2024-01-01', 'smouldering', { heavy: 'G', light: 'kappa' }],
    results: [
      ['2024-03-01', 'calcium', '3.2'],
      ['2024-03-01', 'kappa-flc', '500'],
      ['2024-03-01', 'lambda-flc', '2'],
    ],
  })
  const rules = (decisions: History['decisions'], today = '2024-03-05') =>
    assess({ ...of, decisions }, DEFAULT_PLAN, day(today)).findings.map(({ rule }) => rule)

  test('is excluded from the day it was decided on, and stays in the history', () => {
    const decisions = [exclusion(1, '2024-03-04', 1)]
    expect(rules(decisions, '2024-03-03')).toContain('danger-calcium')
    expect(rules(decisions, '2024-03-04')).not.toContain('danger-calcium')
    const { known } = assess({ ...of, decisions }, DEFAULT_PLAN, day('2024-03-05'))
    expect(known.results.map(({ id }) => id)).toEqual([1, 2, 3])
  })

  test('a later correction is another version, and counts again', () => {
    const corrected = { ...of, results: of.results.map((result) => (result.id === 1 ? { ...result, id: 9, version: 2 } : result)) }
    const found = assess({ ...corrected, decisions: [exclusion(1, '2024-03-04', 1)] }, DEFAULT_PLAN, day('2024-03-05')).findings
    expect(found.map(({ rule }) => rule)).toContain('danger-calcium')
  })

  test('one light chain without the other makes no pair and no rule of pairs', () => {
    expect(rules([])).toEqual(expect.arrayContaining(['mde-light-chain', 'danger-light-chain-kidney']))
    const alone = assess({ ...of, decisions: [exclusion(1, '2024-03-04', 3)] }, DEFAULT_PLAN, day('2024-03-05'))
    expect(alone.course.lightChains).toEqual([])
    expect(alone.findings.map(({ rule }) => rule)).not.toContain('mde-light-chain')
    expect(alone.findings.map(({ rule }) => rule)).toContain('danger-light-chain-kidney')
  })

  test('the one and only result: the patient has no result then', () => {
    const only = history({ results: [['2024-03-01', 'calcium', '2.3']], decisions: [exclusion(1, '2024-03-04', 1)] })
    const answer = assess(only, DEFAULT_PLAN, day('2024-03-05'))
    expect([answer.course.hasResults, whySentence(answer)]).toEqual([false, 'On schedule: nothing is due, for no phase of the disease is recorded.'])
  })

  test('it satisfies no test that is due', () => {
    const due = (decisions: History['decisions']) =>
      assess({ ...of, decisions }, DEFAULT_PLAN, day('2024-03-05')).due.find(({ group }) => group === 'free-light-chains')?.lastDoneOn
    expect([due([]), due([exclusion(1, '2024-03-04', 2)])]).toEqual(['2024-03-01', null])
  })
})
