import fc from 'fast-check'
import { expect, test } from 'vitest'
import { traceCourse } from '../../lib/course/index.ts'
import { assessResponse } from '../../lib/models/index.ts'
import { courseFindings } from '../../lib/rules/index.ts'
import { addDays, day } from '../../lib/time/index.ts'
import { type HistoryWords, history } from '../builders/history.ts'

// The criterion of progression stands in two rooms (DEVELOPERS.md, decision 1). This holds them together: the response is PD on exactly those days on
// which a progression rule is certain, and confirmed with it.
const PD = ['pd-serum', 'pd-urine', 'pd-light-chain']
const START = day('2024-01-01')

const serum = fc.integer({ min: 0, max: 700 }).map((tenths) => String(tenths / 10))
const urine = fc.integer({ min: 0, max: 60 }).map((tens) => String(tens * 10))
const kappa = fc.integer({ min: 0, max: 80 }).map((tens) => String(tens * 10))
const limited = (value: fc.Arbitrary<string>) => fc.tuple(value, fc.constantFrom('', '', '', '', '<')).map(([text, sign]) => `${sign}${text}`)
const visit = fc.record({ serum: limited(serum), urine: limited(urine), kappa: limited(kappa) })

const kinds = fc.constantFrom(['serum'] as const, ['urine'] as const, ['kappa'] as const, ['serum', 'urine'] as const, ['serum', 'kappa'] as const)

function courseOf(measured: readonly ('serum' | 'urine' | 'kappa')[], visits: readonly Record<'serum' | 'urine' | 'kappa', string>[]): HistoryWords {
  return {
    diagnosis: [START, 'active', { heavy: 'G', light: 'kappa' }],
    lines: [{ start: START }],
    results: visits.flatMap((seen, at) => {
      const on = addDays(START, at * 28)
      return [
        ...(measured.includes('serum') ? ([[on, 'serum-m-protein', seen.serum]] as const) : []),
        ...(measured.includes('urine') ? ([[on, 'urine-m-protein', seen.urine]] as const) : []),
        ...(measured.includes('kappa')
          ? ([
              [on, 'kappa-flc', seen.kappa],
              [on, 'lambda-flc', '1'],
            ] as const)
          : []),
      ]
    }),
  }
}

/** A lowest value that leaves open whether it lies below 50 g/L, and a rise that counts on either side of it. */
const ACROSS = [
  { serum: '<50.1', urine: '0', kappa: '100' },
  { serum: '50.1', urine: '0', kappa: '0' },
  { serum: '62.5', urine: '0', kappa: '0' },
]

test('response and rules say progression on the same days, and confirm it together', () => {
  let progressed = 0
  fc.assert(
    fc.property(kinds, fc.array(visit, { minLength: 2, maxLength: 7 }), (measured, visits) => {
      const course = traceCourse(history(courseOf(measured, visits)), addDays(START, (visits.length - 1) * 28))
      // A response needs disease that was measurable at the baseline; a rule does not.
      fc.pre(course.measurableBy.length > 0)
      const found = courseFindings(course).filter(({ rule, endedOn, certainty }) => PD.includes(rule) && endedOn === null && certainty === 'certain')
      const { category, state } = assessResponse(course)
      if (category === 'PD') progressed += 1
      expect(category === 'PD').toBe(found.length > 0)
      if (category === 'PD') expect(state === 'confirmed').toBe(found.some((finding) => finding.state === 'confirmed'))
    }),
    { numRuns: 600, seed: 20_261_125, examples: [[['serum', 'kappa'], ACROSS]] },
  )
  expect(progressed).toBeGreaterThan(50)
})
