import type { Course, Measurement } from '../../course/index.ts'
import { allHold, decimal, decimalText, type Holds, isExact } from '../../units/index.ts'
import { anyCensored, methodChanged, unitSuspect, when } from '../cautions.ts'
import { evidenceOf, keptText } from '../evidence.ts'
import { evolvingSerum, isEvolving } from '../evolving.ts'
import { ratioOf } from '../excess.ts'
import type { Window } from '../finding.ts'
import { hasFallenBy } from '../haemoglobin.ts'
import type { Shown } from '../judgement.ts'
import { isPrecursor } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { findingsOfRuns } from '../runs.ts'
import { SOURCES } from '../sources.ts'
import { withinMonths } from '../withinMonths.ts'

const FALL = decimal('5')
const MONTHS = 12

interface Fallen {
  readonly holds: Holds
  readonly reference: Measurement
}

/** The highest earlier sample, within the months before each of the last two, that both have fallen from; the later of two as high. */
function fallenFrom(samples: readonly Measurement[], at: number): Fallen | null {
  const [previous, current] = [samples[at - 1], samples[at]]
  let best: Fallen | null = null
  if (previous === undefined || current === undefined) return best
  for (let before = at - 2; before >= 0; before -= 1) {
    const reference = samples[before] as Measurement
    if (!withinMonths(reference.on, current.on, MONTHS)) break
    const first = hasFallenBy(FALL, reference.value, current.value)
    const holds = first === 'no' ? first : allHold(first, hasFallenBy(FALL, reference.value, previous.value))
    if (holds === 'no') continue
    const surer = best !== null && holds !== best.holds ? holds === 'certain' : null
    if (best === null || (surer ?? reference.value.low.gt(best.reference.value.low))) best = { holds, reference }
  }
  return best
}

function shown(samples: readonly Measurement[], at: number, reference: Measurement, window: Window): Shown {
  const [previous, current] = [samples[at - 1] as Measurement, samples[at] as Measurement]
  const evidence = (role: 'reference' | 'previous' | 'current', sample: Measurement) => evidenceOf(role, 'haemoglobin', 'g/L', sample)
  return {
    window,
    cautions: [
      ...when(anyCensored(reference.value, previous.value, current.value), 'censored'),
      ...when(methodChanged(reference, previous) || methodChanged(reference, current), 'method-changed'),
      ...when(unitSuspect(samples[at - 2], previous) || unitSuspect(previous, current), 'unit-suspect'),
      'inside-noise',
    ],
    evidence: [evidence('reference', reference), evidence('previous', previous), evidence('current', current)],
    facts: {
      value: keptText(current, 'g/L'),
      on: current.on,
      reference: keptText(reference, 'g/L'),
      referenceOn: reference.on,
      ...(isExact(reference.value) && isExact(current.value) ? { fall: decimalText(reference.value.low.minus(current.value.low)) } : {}),
    },
    excess: ratioOf(reference.value.low.minus(FALL), current.value.low),
  }
}

function windowFor(course: Course): Window {
  return isEvolving(evolvingSerum(course)) ? 'within-30-days' : 'next-visit'
}

export const evolvingHaemoglobin: CourseRule = {
  id: 'evolving-haemoglobin',
  asks: 'Are the last two haemoglobins both at least 5 g/L below one of the 12 months before them?',
  source: `${SOURCES.ravi2016}; inside noise alone`,
  check: (course) => {
    if (!isPrecursor(course)) return []
    const { samples } = course.markers.haemoglobin
    return findingsOfRuns({ rule: 'evolving-haemoglobin', organDamage: false }, samples, (at) => {
      const fallen = fallenFrom(samples, at)
      // Only the M-protein of today tells how soon; of a past fall it says nothing.
      const window = () => (at === samples.length - 1 ? windowFor(course) : 'next-visit')
      return fallen === null
        ? null
        : {
            certainty: fallen.holds === 'certain' ? 'certain' : 'possible',
            state: 'confirmed',
            shown: () => shown(samples, at, fallen.reference, window()),
          }
    })
  },
}
