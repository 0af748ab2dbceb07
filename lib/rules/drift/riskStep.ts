import type { Course } from '../../course/index.ts'
import { riskOverTime } from '../../models/index.ts'
import { anyCensored, methodChanged, when } from '../cautions.ts'
import { insideNoise } from '../criterion/rising.ts'
import { inOrderOfRole } from '../evidence.ts'
import type { Finding } from '../finding.ts'
import type { Shown } from '../judgement.ts'
import { REFERENCE_CHANGE } from '../noise.ts'
import { type FactorTold, factorTold } from '../riskEvidence.ts'
import { type ByNoise, knownBoth, measuredAnew, type RiskStep, riskSteps } from '../riskSteps.ts'
import type { CourseRule } from '../rule.ts'
import { findingOf } from '../runs.ts'
import { SOURCES } from '../sources.ts'

type Model = Parameters<typeof factorTold>[1]

/** A factor that was not there, or not for sure, and now is: its sample then and now. */
interface Gained {
  readonly was: FactorTold
  readonly now: FactorTold
}

/** Only the M-protein has a published variation: its factor is a step where the value rose beyond it. */
function byNoise(course: Course): ByNoise {
  const { samples } = course.markers['serum-m-protein']
  return (then, now) => {
    if (now.name !== 'serum-m-protein') return false
    const [reference, current] = [then, now].map(({ sampledOn }) => samples.find(({ on }) => on === sampledOn))
    if (reference === undefined || current === undefined) return false
    return insideNoise(REFERENCE_CHANGE.serum, { value: reference.value, sample: reference }, current)
  }
}

function gained(course: Course, model: Model, { before, last }: RiskStep): readonly Gained[] {
  return measuredAnew(before, last).flatMap(([then, now]) => {
    if (then.holds === 'certain' || now.holds === 'no') return []
    const [was, is] = [factorTold(course, model, then), factorTold(course, model, now)]
    return was === null || is === null ? [] : [{ was, now: is }]
  })
}

function shown(course: Course, model: Model, step: RiskStep): Shown {
  const factors = gained(course, model, step)
  const both = knownBoth(step.before, step.last)
  return {
    window: 'within-30-days',
    cautions: [
      ...when(
        factors.some(({ was, now }) => anyCensored(...[...was.samples, ...now.samples].map(({ value }) => value))),
        'censored',
      ),
      ...when(
        factors.some(({ was, now }) => was.samples.some((sample) => now.samples.some((other) => methodChanged(sample, other)))),
        'method-changed',
      ),
    ],
    evidence: inOrderOfRole(factors.flatMap(({ was, now }) => [...was.evidence('reference'), ...now.evidence('current')])),
    facts: {
      model,
      on: step.first.on,
      beforeOn: step.before.on,
      before: String(both.filter(([then]) => then.holds === 'certain').length),
      count: String(both.filter(([, now]) => now.holds === 'certain').length),
      factors: factors.map(({ now }) => `${now.value} (${now.begins})`).join(' and '),
      were: factors.map(({ was }) => was.value).join(' and '),
    },
    excess: Math.max(1, ...factors.map(({ now }) => now.excess)),
  }
}

export const riskStep: CourseRule = {
  id: 'risk-step',
  asks: 'Are there more risk factors than at the assessment before: of the MGUS model in MGUS, of 20/2/20 in smouldering myeloma?',
  source: `${SOURCES.rajkumar2005}; ${SOURCES.mateos2020}; an M-protein risen beyond noise, current for 90 days (ours)`,
  check: (course): Finding[] => {
    const over = riskOverTime(course)
    if (over === null) return []
    return riskSteps(over.assessments, byNoise(course), course.thresholds.riskStepDays, course.today).map((step) =>
      findingOf(
        { rule: 'risk-step', organDamage: false },
        { certainty: step.certainty, state: 'met', shown: () => shown(course, over.model, step) },
        step.first.on,
        step.endedOn,
      ),
    )
  },
}
