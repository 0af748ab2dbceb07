import type { Course, Measurement } from '../../course/index.ts'
import { decimal, isExact } from '../../units/index.ts'
import { followedFrom } from '../criterion/followed.ts'
import { RISES } from '../criterion/rise.ts'
import { judgeRise } from '../criterion/rising.ts'
import { measured } from '../measured.ts'
import { runsAsActive } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { findingsOfRuns } from '../runs.ts'
import { SOURCES } from '../sources.ts'

// Per cent of white cells in 10^9/L, as cells per uL: x / 100 of them, 1000 per uL each.
const PER_MICROLITRE = decimal('10')

/** Circulating plasma cells per uL, from their share and the white cells of the same day; days without white cells are left out. */
function perMicrolitre(course: Course): readonly Measurement[] {
  const whites = new Map(measured(course, 'white-cells').map((sample) => [sample.on, sample]))
  return measured(course, 'circulating-plasma-cells').flatMap((share): Measurement[] => {
    const white = whites.get(share.on)
    if (white === undefined) return []
    const times = (a: Measurement['value']['low'], b: Measurement['value']['low']) => a.times(b).times(PER_MICROLITRE)
    const high = share.value.high === null || white.value.high === null ? null : times(share.value.high, white.value.high)
    const value = { low: times(share.value.low, white.value.low), high }
    const comparator = isExact(value) ? null : high === null ? '>=' : '<='
    return [{ ...share, value, comparator, printed: null, words: null, results: [...share.results, ...white.results] }]
  })
}

export const pdCirculating: CourseRule = {
  id: 'pd-circulating',
  asks: 'Where they are the only measure of disease: have circulating plasma cells risen by at least 50 % and 200 per uL?',
  source: `${SOURCES.imwg2016} (numbers from memory)`,
  check: (course) => {
    if (!runsAsActive(course) || course.measurableBy.length > 0) return []
    const of = followedFrom(course, 'circulating-plasma-cells', '/uL', perMicrolitre(course))
    const judge = judgeRise({ of, criterion: RISES.circulating, noise: null, freeLightChains: false, hastens: course.thresholds.largeRiseTimes })
    return findingsOfRuns({ rule: 'pd-circulating', organDamage: false }, of.window, judge)
  },
}
