import type { Course, Measurement } from '../../course/index.ts'
import { decimalText, type Holds, isExact } from '../../units/index.ts'
import { anyCensored, methodChanged, when } from '../cautions.ts'
import { evidenceOf, valueText } from '../evidence.ts'
import { ratioOf } from '../excess.ts'
import { type Telling, twoSampleJudged } from '../limit.ts'
import { runsAsActive } from '../phases.ts'
import { comparedPair } from '../printedLimit.ts'
import { CREATININE } from '../renal.ts'
import type { CourseRule } from '../rule.ts'
import { findingsOfJudged, type Judged } from '../runs.ts'
import { SOURCES } from '../sources.ts'

function hasRisen(start: Measurement, sample: Measurement): Holds {
  const { value, reference, limit } = comparedPair(start, sample, CREATININE)
  if (reference.high !== null && value.low.minus(reference.high).gte(limit)) return 'certain'
  return value.high === null || value.high.minus(reference.low).gte(limit) ? 'possible' : 'no'
}

function tells(start: Measurement, current: Measurement, previous: Measurement | undefined): Telling {
  const { value, reference, limit, unit } = comparedPair(start, current, CREATININE)
  const rise = isExact(value) && isExact(reference) ? { rise: `${decimalText(value.low.minus(reference.low))} ${unit}` } : {}
  return {
    window: 'within-7-days',
    excess: ratioOf(value.low, reference.low.plus(limit)),
    cautions: [
      ...when(anyCensored(start.value) && !anyCensored(current.value), 'censored'),
      ...when(methodChanged(start, current) || (previous !== undefined && methodChanged(start, previous)), 'method-changed'),
    ],
    evidence: [evidenceOf('reference', 'creatinine', 'umol/L', start)],
    facts: { reference: valueText(start, 'umol/L'), referenceOn: start.on, limit: `${decimalText(limit)} ${unit}`, ...rise },
  }
}

function judged(course: Course): readonly Judged[] {
  const { creatinine } = course.markers
  const start = creatinine.baseline
  if (!runsAsActive(course) || start === null) return []
  return [
    twoSampleJudged({
      about: { rule: 'relapse-creatinine', organDamage: true },
      of: { name: 'creatinine', unit: 'umol/L', samples: creatinine.window },
      holds: (sample) => hasRisen(start, sample),
      tells: (sample, _, previous) => tells(start, sample, previous),
    }),
  ]
}

export const relapseCreatinine: CourseRule = {
  id: 'relapse-creatinine',
  asks: 'Has creatinine risen by at least 177 umol/L (2 mg/dL) from the start of the line?',
  source: `clinical relapse, ${SOURCES.imwg2016}`,
  check: (course) => findingsOfJudged(judged(course)),
  judged,
}
