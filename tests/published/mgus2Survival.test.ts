import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import {
  atRiskTable,
  cumulativeIncidence,
  incidenceAt,
  kaplanMeier,
  logRank,
  type Observed,
  type Scale,
  survivalQuantile,
} from '../../lib/statistics/index.ts'
import reference from './reference/mgus2_expected.json' with { type: 'json' }

// 1,384 people with MGUS of one clinic, months: Kyle, NEJM 2002;346:564; the data set mgus2 of R's survival 3.5-3. Numbers by R 4.2.2.
const PEOPLE = readFileSync(new URL('reference/mgus2.csv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => {
    const [, , sex = '', , , , serum = '', ptime = '', pstat = '', futime = '', death = ''] = line.split(',')
    return { sex, serum, untilProgression: Number(ptime), progressed: Number(pstat), followed: Number(futime), died: Number(death) }
  })
type People = typeof PEOPLE

const progression = (people: People): Observed => ({
  times: people.map(({ untilProgression }) => untilProgression),
  outcomes: people.map(({ progressed }) => progressed),
})
const death = (people: People): Observed => ({ times: people.map(({ followed }) => followed), outcomes: people.map(({ died }) => died) })
// What came first: 1 is progression, which also counts where death is of the same month, 2 is death without it.
const either = (people: People): Observed => ({
  times: people.map((one) => (one.progressed === 1 ? one.untilProgression : one.followed)),
  outcomes: people.map(({ progressed, died }) => (progressed === 1 ? 1 : 2 * died)),
})

const measured = PEOPLE.filter(({ serum }) => serum !== '')
const GROUPS = {
  F: PEOPLE.filter(({ sex }) => sex === 'F'),
  M: PEOPLE.filter(({ sex }) => sex === 'M'),
  high: measured.filter(({ serum }) => Number(serum) >= 1.5),
  low: measured.filter(({ serum }) => Number(serum) < 1.5),
}
const SCALES: readonly [Scale, 'plain' | 'log' | 'log_log'][] = [
  ['plain', 'plain'],
  ['log', 'log'],
  ['log-log', 'log_log'],
]
const YEARS = [60, 120, 240]

test('the people are those of the reference', () => {
  expect(PEOPLE).toHaveLength(reference.n)
  expect(PEOPLE.filter(({ progressed }) => progressed === 1)).toHaveLength(reference.status_counts.progressed)
  const { outcomes } = either(PEOPLE)
  expect(Array.from(outcomes).filter((outcome) => outcome === 2)).toHaveLength(reference.status_counts.died_without_progression)
  expect(Array.from(outcomes).filter((outcome) => outcome === 0)).toHaveLength(reference.status_counts.censored_alive_without_progression)
})

describe.each([
  ['progression', progression(PEOPLE), reference.km_progression.at],
  ['death', death(PEOPLE), reference.km_death.at],
  ['progression of women', progression(GROUPS.F), reference.km_progression_by_sex.F],
  ['progression of men', progression(GROUPS.M), reference.km_progression_by_sex.M],
  ['progression from 15 g/L', progression(GROUPS.high), reference.km_progression_by_mspike['mspike_ge_1.5']],
  ['progression below 15 g/L', progression(GROUPS.low), reference.km_progression_by_mspike['mspike_lt_1.5']],
])('Kaplan-Meier, %s, at 5, 10 and 20 years', (_name, observed, expected) => {
  test.each(SCALES)('to 1e-9, interval %s', (scale, name) => {
    const found = atRiskTable(kaplanMeier(observed, scale), YEARS)
    expect(found.map(({ time, atRisk }) => [time, atRisk])).toEqual(expected.map((at) => [at.time, at.n_risk_just_before]))
    expected.forEach((at, place) => {
      expect(found[place]?.survival).toBeCloseTo(at.S, 9)
      expect(found[place]?.standardError).toBeCloseTo(at.se_greenwood_S, 9)
      expect(found[place]?.interval?.[0]).toBeCloseTo(at[`lower_${name}`], 9)
      expect(found[place]?.interval?.[1]).toBeCloseTo(at[`upper_${name}`], 9)
    })
  })
})

test.each(SCALES)('median time to death 98 months (92 to 103), band %s', (scale, name) => {
  const expected = reference.km_death.median_months[name]
  expect(survivalQuantile(kaplanMeier(death(PEOPLE), scale))).toEqual({ time: expected.median, low: expected.lower, high: expected.upper })
})

// The reference calls the median of progression "not reached", yet its own lowest survival is below one half: at the very end, among a handful of people.
test('the survival without progression ends at the lowest of the reference', () => {
  const { steps } = kaplanMeier(progression(PEOPLE))
  expect(steps.at(-1)?.survival).toBeCloseTo(reference.km_progression.min_S, 9)
  expect(steps.filter(({ events }) => events > 0)).toHaveLength(reference.km_progression.n_distinct_event_times)
})

describe.each([
  ['progression', 0, reference.cif.progression],
  ['death without progression', 1, reference.cif.death_without_progression],
] as const)('cumulative incidence by Aalen and Johansen, %s', (_name, cause, expected) => {
  // Standard error: R survival (infinitesimal jackknife) and R etm (Greenwood) give the same to 1e-15.
  test('at 5, 10 and 20 years to 1e-9, log-log interval', () => {
    const curves = cumulativeIncidence(either(PEOPLE), 2)
    for (const at of expected) {
      const found = incidenceAt(curves, at.time)
      expect(found.atRisk).toBe(at.n_risk_event_free)
      expect(found.causes[cause]?.incidence).toBeCloseTo(at.CIF, 9)
      expect(found.causes[cause]?.standardError).toBeCloseTo(at.se_infinitesimal_jackknife_R_survival, 9)
      expect(found.causes[cause]?.interval?.[0]).toBeCloseTo(at.lower_loglog_delta, 9)
      expect(found.causes[cause]?.interval?.[1]).toBeCloseTo(at.upper_loglog_delta, 9)
    }
  })

  test('with the intervals of R survival (log) and plain ones', () => {
    const [log, plain] = [cumulativeIncidence(either(PEOPLE), 2, 'log'), cumulativeIncidence(either(PEOPLE), 2, 'plain')]
    for (const at of expected) {
      expect(incidenceAt(log, at.time).causes[cause]?.interval?.[0]).toBeCloseTo(at.lower_R_survival_log, 9)
      expect(incidenceAt(log, at.time).causes[cause]?.interval?.[1]).toBeCloseTo(at.upper_R_survival_log, 9)
      expect(incidenceAt(plain, at.time).causes[cause]?.interval?.[0]).toBeCloseTo(at.lower_plain_delta, 9)
      expect(incidenceAt(plain, at.time).causes[cause]?.interval?.[1]).toBeCloseTo(at.upper_plain_delta, 9)
    }
  })
})

test.each([
  ['women', GROUPS.F, reference.cif_by_sex.F],
  ['men', GROUPS.M, reference.cif_by_sex.M],
  ['from 15 g/L', GROUPS.high, reference.cif_by_mspike['mspike_ge_1.5']],
  ['below 15 g/L', GROUPS.low, reference.cif_by_mspike['mspike_lt_1.5']],
])('cumulative incidence of %s', (_name, people, expected) => {
  const curves = cumulativeIncidence(either(people), 2)
  for (const at of expected) {
    const { atRisk, causes } = incidenceAt(curves, at.time)
    expect(atRisk).toBe(at.n_risk)
    expect(causes[0]?.incidence).toBeCloseTo(at.cif_pcm, 9)
    expect(causes[1]?.incidence).toBeCloseTo(at.cif_death, 9)
  }
})

test('one minus Kaplan-Meier says too much where people die first, by as much as in R', () => {
  const [alone, both] = [kaplanMeier(progression(PEOPLE)), cumulativeIncidence(either(PEOPLE), 2)]
  YEARS.forEach((time, at) => {
    const excess = 1 - (atRiskTable(alone, [time])[0]?.survival ?? 0) - (incidenceAt(both, time).causes[0]?.incidence ?? 0)
    expect(excess).toBeCloseTo(reference.cif.one_minus_KM_minus_CIF_progression[at] ?? Number.NaN, 9)
  })
})

describe('log-rank', () => {
  test.each([
    ['progression by sex', [GROUPS.F, GROUPS.M].map(progression), reference.logrank.progression_by_sex],
    ['progression by M-protein', [GROUPS.low, GROUPS.high].map(progression), reference.logrank['progression_by_mspike_ge_1.5']],
    ['death by sex', [GROUPS.F, GROUPS.M].map(death), reference.logrank.death_by_sex],
    ['death by M-protein', [GROUPS.low, GROUPS.high].map(death), reference.logrank['death_by_mspike_ge_1.5']],
  ])('%s', (_name, groups, expected) => {
    const found = logRank(groups)
    expect(found.chiSquare).toBeCloseTo(expected.chisq, 9)
    expect(found.degrees).toBe(expected.df)
    expect(found.p).toBeCloseTo(expected.p, 10)
    expect(found.groups.map(({ size, observed }) => [size, observed])).toEqual(expected.n.map((n, at) => [n, expected.observed[at]]))
    found.groups.forEach((group, at) => {
      expect(group.expected).toBeCloseTo(expected.expected[at] ?? Number.NaN, 9)
    })
  })
})
