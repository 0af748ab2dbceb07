import type { Measurement } from '../../course/index.ts'
import { allHold, atLeast, below, decimal, type Holds } from '../../units/index.ts'
import { anyCensored, methodChanged, when } from '../cautions.ts'
import { evidenceOf } from '../evidence.ts'
import { ratioOf } from '../excess.ts'
import { kidneyInjuryToday } from '../kidneyInjury.ts'
import { dangerFindings } from '../limit.ts'
import type { CourseRule } from '../rule.ts'

const LEVEL = decimal('500')

function crosses(samples: readonly Measurement[], at: number): Holds {
  const current = samples[at]
  const previous = samples[at - 1]
  if (current === undefined) return 'no'
  return allHold(atLeast(current.value, LEVEL), previous === undefined ? 'certain' : below(previous.value, LEVEL))
}

export const dangerLightChainKidney: CourseRule = {
  id: 'danger-light-chain-kidney',
  asks: 'Has the involved free light chain reached 500 mg/L, for the first time or after having been below?',
  source: 'cast nephropathy risk, IMWG',
  check: (course) => {
    const marker = course.markers['involved-flc']
    const { samples } = marker
    return dangerFindings(
      {
        about: { rule: 'danger-light-chain-kidney', organDamage: false },
        of: marker,
        holds: (_, at) => crosses(samples, at),
        tells: (sample, at) => {
          const previous = samples[at - 1]
          const withInjury = at === samples.length - 1 && kidneyInjuryToday(course) === 'certain'
          return {
            window: withInjury ? 'same-day' : 'within-7-days',
            excess: ratioOf(sample.value.low, LEVEL),
            // Its window stays: the value alone is at the level, the sample before only says that this is new.
            cautions: [
              ...when(!anyCensored(sample.value) && anyCensored(previous?.value), 'censored'),
              ...when(previous !== undefined && methodChanged(previous, sample), 'method-changed'),
            ],
            evidence: previous === undefined ? [] : [evidenceOf('previous', marker.name, marker.unit, previous)],
            facts: { ...(withInjury ? { kidney: 'yes' } : {}), ...(previous === undefined ? {} : { previousOn: previous.on }) },
          }
        },
      },
      course.today,
    )
  },
}
