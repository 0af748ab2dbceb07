import fc from 'fast-check'
import { expect, test } from 'vitest'
import { cumulativeIncidence, incidenceAt, kaplanMeier } from '../../lib/statistics/index.ts'

const cases = fc.array(fc.tuple(fc.nat({ max: 12 }), fc.nat({ max: 3 })), { minLength: 1, maxLength: 60 }).map((given) => ({
  times: given.map(([time]) => time),
  outcomes: given.map(([, outcome]) => outcome),
}))

test('the incidences and the event-free share make 1 at every time, and no incidence falls', () => {
  fc.assert(
    fc.property(cases, (given) => {
      const before = [0, 0, 0]
      for (const { eventFree, causes } of cumulativeIncidence(given, 3).steps) {
        expect(eventFree + causes.reduce((sum, { incidence }) => sum + incidence, 0)).toBeCloseTo(1, 12)
        causes.forEach(({ incidence, standardError }, cause) => {
          expect(incidence).toBeGreaterThanOrEqual(before[cause] ?? 0)
          expect(standardError).toBeGreaterThanOrEqual(0)
          before[cause] = incidence
        })
      }
    }),
  )
})

test('with one cause it is one minus Kaplan-Meier, with the same standard error', () => {
  fc.assert(
    fc.property(cases, (given) => {
      const one = { times: given.times, outcomes: given.outcomes.map((outcome) => Math.min(1, outcome)) }
      const { steps } = kaplanMeier(one)
      cumulativeIncidence(one, 1).steps.forEach(({ time, atRisk, censored, causes, eventFree }, at) => {
        expect({ time, atRisk, censored }).toEqual({ time: steps[at]?.time, atRisk: steps[at]?.atRisk, censored: steps[at]?.censored })
        expect(causes[0]?.incidence).toBeCloseTo(1 - (steps[at]?.survival ?? 0), 12)
        expect(eventFree).toBeCloseTo(steps[at]?.survival ?? Number.NaN, 12)
        const error = steps[at]?.standardError ?? null
        if (error !== null) expect(causes[0]?.standardError).toBeCloseTo(error, 12)
      })
    }),
  )
})

test('where nothing is censored each is the share of that cause, with the binomial standard error', () => {
  fc.assert(
    fc.property(fc.array(fc.tuple(fc.nat({ max: 9 }), fc.integer({ min: 1, max: 2 })), { minLength: 1, maxLength: 60 }), (given) => {
      const n = given.length
      for (const { time, causes } of cumulativeIncidence({ times: given.map(([at]) => at), outcomes: given.map(([, cause]) => cause) }, 2).steps) {
        causes.forEach(({ incidence, standardError }, cause) => {
          const share = given.filter(([at, outcome]) => at <= time && outcome === cause + 1).length / n
          expect(incidence).toBeCloseTo(share, 12)
          expect(standardError ** 2).toBeCloseTo((share * (1 - share)) / n, 12)
        })
      }
    }),
  )
})

test('the curves at a time before, on, between and after those seen', () => {
  const curves = cumulativeIncidence({ times: [2, 4, 4, 6], outcomes: [1, 2, 0, 0] }, 2)
  expect(incidenceAt(curves, 1)).toMatchObject({ atRisk: 4, eventFree: 1, causes: [{ events: 0, incidence: 0 }, { incidence: 0 }] })
  expect(incidenceAt(curves, 2)).toMatchObject({
    atRisk: 4,
    eventFree: 0.75,
    causes: [
      { events: 1, incidence: 0.25 },
      { events: 0, incidence: 0 },
    ],
  })
  expect(incidenceAt(curves, 5)).toMatchObject({ atRisk: 1, eventFree: 0.5, causes: [{ incidence: 0.25 }, { events: 1, incidence: 0.25 }] })
  expect(incidenceAt(curves, 7)).toMatchObject({
    atRisk: 0,
    eventFree: null,
    causes: [{ events: 1, incidence: null, standardError: null }, { incidence: null }],
  })
  expect(incidenceAt(cumulativeIncidence({ times: [], outcomes: [] }, 1), 1)).toMatchObject({ atRisk: 0, eventFree: null })
  const over = cumulativeIncidence({ times: [1, 2], outcomes: [1, 2] }, 2)
  expect(incidenceAt(over, 9)).toMatchObject({ eventFree: 0, causes: [{ incidence: 0.5 }, { incidence: 0.5 }] })
})

test('what is no cause, no count of causes, no time', () => {
  expect(() => cumulativeIncidence({ times: [1], outcomes: [3] }, 2)).toThrow(RangeError)
  expect(() => cumulativeIncidence({ times: [1], outcomes: [1] }, 0)).toThrow(RangeError)
  expect(() => incidenceAt(cumulativeIncidence({ times: [1], outcomes: [1] }, 1), Number.NaN)).toThrow(RangeError)
})
