import { type InvolvedPair, lightChainPairs } from '../../course/index.ts'
import { allHold, atLeast, type Holds, isExact, roundedText } from '../../units/index.ts'
import { anyCensored, when } from '../cautions.ts'
import { evidenceOf } from '../evidence.ts'

import { ratioOf } from '../excess.ts'
import { LIGHT_CHAIN_EVENT } from '../lightChainEvent.ts'
import { twoSampleFindings } from '../limit.ts'
import { isPrecursor } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { SOURCES } from '../sources.ts'

const { ratio: RATIO, involved: INVOLVED } = LIGHT_CHAIN_EVENT

// By cross multiplication, so that no rounded quotient decides.
function ratioReached({ involved, uninvolved }: InvolvedPair): Holds {
  if (uninvolved.high !== null && involved.low.gte(uninvolved.high.times(RATIO))) return 'certain'
  return involved.high === null || involved.high.gte(uninvolved.low.times(RATIO)) ? 'possible' : 'no'
}

function ratioFact({ involved, uninvolved }: InvolvedPair): Record<string, string> {
  const isNumber = isExact(involved) && isExact(uninvolved) && uninvolved.low.gt(0)
  return isNumber ? { ratio: roundedText(involved.low.div(uninvolved.low), 1) } : {}
}

export const mdeLightChain: CourseRule = {
  id: 'mde-light-chain',
  asks: 'Is the involved ratio at or above 100 and the involved free light chain at or above 100 mg/L?',
  source: SOURCES.imwg2014,
  check: (course) => {
    if (!isPrecursor(course)) return []
    const pairs = lightChainPairs(course)
    const other = course.involved?.chain === 'kappa' ? 'lambda' : 'kappa'
    const samples = pairs.map((pair) => pair.sample)
    return twoSampleFindings({
      about: { rule: 'mde-light-chain', organDamage: false },
      of: { name: 'involved-flc', unit: 'mg/L', samples },
      holds: (sample, at) => {
        const pair = pairs[at]
        return pair === undefined ? 'no' : allHold(atLeast(sample.value, INVOLVED), ratioReached(pair))
      },
      tells: (sample, at) => {
        const pair = pairs[at]
        const sampled = course.lightChains[at]?.[other]
        const beside = sampled === undefined ? null : evidenceOf('current', `${other}-flc`, 'mg/L', sampled)
        return {
          window: 'within-7-days',
          excess: ratioOf(sample.value.low, INVOLVED),
          cautions: when(pair !== undefined && !anyCensored(sample.value) && anyCensored(pair.uninvolved), 'censored'),
          evidence: beside === null ? [] : [beside],
          facts: {
            ...(beside === null ? {} : { uninvolved: `${beside.comparator ?? ''}${beside.value}` }),
            ...(pair === undefined ? {} : ratioFact(pair)),
          },
        }
      },
    })
  },
}
