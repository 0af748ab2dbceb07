import { describe, expect, test } from 'vitest'
import { DEFAULT_PLAN } from '../../lib/plan/index.ts'
import { CAUTIONS, RULE_IDS, STATES, type WINDOWS } from '../../lib/rules/index.ts'
import { assess } from '../../lib/standing/index.ts'
import { day } from '../../lib/time/index.ts'
import { inventCohort } from '../../seed/index.ts'
import { throughIntake } from './throughIntake.ts'

const endsOn = day('2026-11-25')
const cohort = inventCohort({ patients: 400, years: 8, seed: 20_261_125, endsOn })
const taken = throughIntake(cohort.files, endsOn)
const scenarioOf = new Map(cohort.told.map(({ patientId, scenario }) => [patientId, scenario]))
const followed = taken.histories.filter(({ patient }) => patient.status === 'followed').map((history) => assess(history, DEFAULT_PLAN, endsOn))

describe('the invented cohort through intake', () => {
  test('every row is accounted for, and only the rows meant to be are held or refused', () => {
    const { filed, known, corrected, held, refused } = taken.outcomes
    expect(filed + known + corrected + held + refused).toBe(taken.rows)
    expect([...taken.reasons].sort()).toEqual(['bad-date', 'decimal-comma', 'not-a-number', 'unit-missing', 'unknown-code', 'unknown-patient'])
    expect(known).toBe(1)
    expect(corrected).toBeGreaterThan(10)
  })

  test('it has the size of a clinic of 400 over eight years', () => {
    expect(taken.histories).toHaveLength(400)
    expect(taken.rows).toBeGreaterThan(60_000)
    expect(taken.rows).toBeLessThan(150_000)
  })

  test('about 45 % MGUS, 20 % smouldering, 35 % active', () => {
    const share = (phase: string) => followed.filter(({ course }) => course.phase?.phase === phase).length / followed.length
    expect(share('mgus')).toBeCloseTo(0.45, 1)
    expect(share('smouldering')).toBeCloseTo(0.2, 1)
    expect(share('active')).toBeCloseTo(0.35, 1)
  })
})

describe('the invented cohort before the engine', () => {
  // What a correction takes back is known only to a database: tests/usecases/corrections, and the demonstration.
  test.each(RULE_IDS.filter((rule) => rule !== 'reviewed-then-corrected'))('%s is current for somebody who is followed', (rule) => {
    expect(followed.filter(({ findings }) => findings.some((finding) => finding.rule === rule)).length).toBeGreaterThan(0)
  })

  // Only a physician can attribute a finding elsewhere, and only a database knows what a correction did: no file says so.
  const NOT_IN_FILES = ['attributed-elsewhere', 'removed-by-correction', 'created-by-correction']
  test.each(CAUTIONS.filter((caution) => !NOT_IN_FILES.includes(caution)))('%s is a caution somebody carries', (caution) => {
    expect(followed.filter(({ findings }) => findings.some(({ cautions }) => cautions.includes(caution))).length).toBeGreaterThan(0)
  })

  const shares: readonly (readonly [(typeof WINDOWS)[number], least: number, most: number])[] = [
    ['same-day', 1, 3],
    ['within-7-days', 4, 8],
    ['within-30-days', 7, 13],
    // One sample of many beyond noise is enough for a word at the next visit, and chance brings it to many stable patients.
    ['next-visit', 10, 30],
  ]
  test.each(shares)('%s: from %d to %d %% of those followed', (window, least, most) => {
    const percent = (100 * followed.filter((assessed) => assessed.window === window).length) / followed.length
    expect(percent).toBeGreaterThanOrEqual(least)
    expect(percent).toBeLessThanOrEqual(most)
  })

  test('the quiet majority is quiet: at most 2 % of it shows more than a test due soon', () => {
    const quiet = followed.filter(({ course }) => scenarioOf.get(course.patient.id) === 'quiet')
    const loud = quiet.filter(({ window }) => window !== 'on-schedule' && window !== 'next-visit')
    expect(quiet.length).toBeGreaterThan(280)
    expect(loud.length / quiet.length).toBeLessThanOrEqual(0.02)
  })

  // A scenario is named after the rule it shows, then what is special about it.
  const named = cohort.told.filter(({ scenario }) => RULE_IDS.some((rule) => scenario.startsWith(rule)))
  test.each(named)('$patientId shows $scenario', ({ patientId, scenario }) => {
    const found = followed.find(({ course }) => course.patient.id === patientId)?.findings ?? []
    const [what = '', ...more] = scenario.split(', ')
    const [rule = '', word] = what.split(' ')
    const state = STATES.find((known) => known === word)
    const shown = found.filter((finding) => finding.rule === rule && (state === undefined || finding.state === state))
    expect(shown.map((finding) => finding.rule)).toContain(rule)
    const cautions = CAUTIONS.filter((caution) => more.includes(caution.replaceAll('-', ' ')))
    expect(shown.flatMap((finding) => finding.cautions)).toEqual(expect.arrayContaining(cautions))
  })
})
