import type { FactorOn, RiskOn } from '../models/index.ts'
import { addDays, type Day } from '../time/index.ts'
import type { Holds } from '../units/index.ts'

/** A step up in the number of risk factors: the assessment before it, the first that showed it, the last that still did, and when it ended. */
export interface RiskStep {
  readonly before: RiskOn
  readonly first: RiskOn
  readonly last: RiskOn
  readonly certainty: 'certain' | 'possible'
  readonly endedOn: Day | null
}

const least = ({ holds }: FactorOn): number => (holds === 'certain' ? 1 : 0)
const most = ({ holds }: FactorOn): number => (holds === 'no' ? 0 : 1)

type ThenAndNow = readonly [then: FactorOn, now: FactorOn]

/** The factors whose input was known both times. */
export function knownBoth(before: RiskOn, now: RiskOn): readonly ThenAndNow[] {
  return before.factors.flatMap((then, at): ThenAndNow[] => {
    const after = now.factors[at]
    return after === undefined || then.holds === null || after.holds === null ? [] : [[then, after]]
  })
}

/** Of those the ones measured in between: the rest tells of no change. */
export function measuredAnew(before: RiskOn, now: RiskOn): readonly ThenAndNow[] {
  return knownBoth(before, now).filter(([then, after]) => then.sampledOn !== after.sampledOn)
}

/** True where noise alone may have brought a factor that was not there, or not for sure. */
export type ByNoise = (then: FactorOn, now: FactorOn) => boolean

const NEVER: ByNoise = () => false

/**
 * Whether more factors are present than before, over all the values reports leave possible. A factor whose input was not known before is news, but no
 * step: it may have been there all the time. Nor is one that noise alone may have brought.
 */
export function stepsUp(before: RiskOn, now: RiskOn, byNoise: ByNoise): Holds {
  const anew = measuredAnew(before, now).filter(([then, after]) => then.holds === 'certain' || after.holds === 'no' || !byNoise(then, after))
  const gained = anew.reduce((sum, [then, after]) => sum + least(after) - most(then), 0)
  if (gained > 0) return 'certain'
  return anew.reduce((sum, [then, after]) => sum + most(after) - least(then), 0) > 0 ? 'possible' : 'no'
}

type Open = Omit<RiskStep, 'endedOn'>

/** Where the walk over the assessments stands. */
interface Walk {
  readonly open: Open | null
  /** The assessment before the count rose by no more than noise: what rises on is held against it too, so that many small rises are one. */
  readonly waiting: RiskOn | null
}

// A step on top of another takes its place, but one that is merely possible does not take that of a certain one.
function after({ open, waiting }: Walk, latest: RiskOn, now: RiskOn, byNoise: ByNoise): Walk {
  const before = waiting ?? latest
  const up = stepsUp(before, now, byNoise)
  if (up !== 'no' && (open === null || up === 'certain' || open.certainty === 'possible'))
    return { open: { before, first: now, last: now, certainty: up }, waiting: null }
  const still = open === null ? 'no' : stepsUp(open.before, now, byNoise)
  return {
    open: open === null || still === 'no' ? null : { ...open, last: now, certainty: still },
    waiting: up === 'no' && stepsUp(before, now, NEVER) !== 'no' ? before : null,
  }
}

/** The first day on which a step is news no longer: after so many days from its sample. */
function lapsesOn({ first }: Open, lastsDays: number): Day {
  return addDays(first.on, lastsDays + 1)
}

/** The steps up until a day, oldest first. One lasts while the factors stay above those of the assessment before it, and at most so many days. */
export function riskSteps(assessments: readonly RiskOn[], byNoise: ByNoise, lastsDays: number, today: Day): readonly RiskStep[] {
  const steps: RiskStep[] = []
  let walk: Walk = { open: null, waiting: null }
  for (const [at, now] of assessments.entries()) {
    const latest = assessments[at - 1]
    if (latest === undefined) continue
    const { open } = walk
    const lapses = open === null ? null : lapsesOn(open, lastsDays)
    const lapsed = lapses !== null && now.on >= lapses
    const next = after(lapsed ? { ...walk, open: null } : walk, latest, now, byNoise)
    if (open !== null && lapsed) steps.push({ ...open, endedOn: lapses })
    else if (open !== null && next.open?.first !== open.first) steps.push({ ...open, endedOn: now.on })
    walk = next
  }
  const { open } = walk
  if (open === null) return steps
  const lapses = lapsesOn(open, lastsDays)
  return [...steps, { ...open, endedOn: today >= lapses ? lapses : null }]
}
