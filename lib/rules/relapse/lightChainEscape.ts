import type { Course } from '../../course/index.ts'
import type { Day } from '../../time/index.ts'
import { immunoglobulinRise, lightChainRise, ratioAbnormalOn, renalInterval, serumRise, urineRise } from '../criterion/markerRises.ts'
import { judgeRise, type Rising, riseAt } from '../criterion/rising.ts'
import { lightAlone } from '../immunofixation/bandMeaning.ts'
import { bandText, fixationEvidence, fixationsOf } from '../immunofixation/fixation.ts'
import type { Judgement } from '../judgement.ts'
import { runsAsActive } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { type About, findingsOfRuns, type Judged } from '../runs.ts'
import { SOURCES } from '../sources.ts'

// Only a certain progression by M-protein makes the light chains say nothing new: a possible one must not hide them.
function progressesOn(rise: Rising, on: Day): boolean {
  const at = rise.of.window.findLastIndex((sample) => sample.on <= on)
  return at !== -1 && riseAt(rise, at)?.certainty === 'certain'
}

const ABOUT: About = { rule: 'light-chain-escape', organDamage: false }

function isEscapeAsked(course: Course): boolean {
  return runsAsActive(course) && course.measurableBy.some((by) => by === 'serum' || by === 'urine')
}

function escapes(course: Course): Rising {
  return { ...lightChainRise(course), also: ratioAbnormalOn(course), cautionsOf: renalInterval(course), hastens: null }
}

// What the latest serum immunofixation adds, where it shows that the heavy chain is gone. In urine the light chain alone is usual.
function withLostHeavyChain(course: Course, judged: Judgement): Judgement {
  const latest = fixationsOf(course, 'serum').at(-1)
  const band = latest === undefined ? null : lightAlone(course, latest)
  if (latest === undefined || band === null) return judged
  return {
    ...judged,
    shown: () => {
      const { evidence, facts, ...shown } = judged.shown()
      return { ...shown, evidence: [...evidence, fixationEvidence('current', latest)], facts: { ...facts, lost: bandText(band), lostOn: latest.on } }
    },
  }
}

// Whatever the M-protein hides on a sample's own day: on a later day it may hide it no longer.
function judged(course: Course): readonly Judged[] {
  if (!isEscapeAsked(course)) return []
  const rise = escapes(course)
  return [{ about: ABOUT, samples: rise.of.window, judge: judgeRise(rise) }]
}

export const lightChainEscape: CourseRule = {
  id: 'light-chain-escape',
  asks: 'Measurable by serum or urine and no progression there: has dFLC risen from its lowest value by more than 100 mg/L and at least 25 %, with an abnormal ratio?',
  source: `54 of 520 relapses, ${SOURCES.escape2014}; criterion of ${SOURCES.imwg2016}`,
  check: (course) => {
    if (!isEscapeAsked(course)) return []
    const rise = escapes(course)
    const others = [serumRise(course), immunoglobulinRise(course), urineRise(course)].filter((other) => other !== null)
    const { window } = rise.of
    const judge = judgeRise(rise)
    return findingsOfRuns(ABOUT, window, (at) => {
      const judged = judge(at)
      if (judged === null) return null
      const isLast = at === window.length - 1
      const on = isLast ? course.today : (window[at]?.on ?? course.today)
      if (others.some((other) => progressesOn(other, on))) return null
      return isLast ? withLostHeavyChain(course, judged) : judged
    })
  },
  judged,
}
