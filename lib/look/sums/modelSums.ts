import type { Course } from '../../course/index.ts'
import { type FallPart, modelPage, type RiskAssessment, responseParts, riskParts } from '../../models/index.ts'
import { keptText } from '../../rules/index.ts'
import { decimal, roundedText } from '../../units/index.ts'
import type { Arithmetic } from './arithmetic.ts'
import { exactStep, num, roundedStep } from './steps.ts'

function fallSum({ part, unit, baseline, current, fall }: FallPart): readonly Arithmetic[] {
  if (baseline === null || current === null || fall === null) return []
  const [from, to] = [baseline.value.low, current.value.low]
  const step = roundedStep('Fall in per cent', `100 x (${num(from)} - ${num(to)}) / ${num(from)}`, fall, 1, '%')
  return [
    {
      id: `fall-${part.toLowerCase().replaceAll(' ', '-')}`,
      name: `Fall of ${part} from the baseline`,
      result: `${roundedText(fall, 1)} %`,
      from: [`baseline ${keptText(baseline, unit)} of ${baseline.on}`, `current ${keptText(current, unit)} of ${current.on}`],
      steps: [step],
      against: part === 'serum M-protein' ? 'VGPR from 90 %, PR from 50 %, MR from 25 %' : null,
      source: 'IMWG 2016 (Kumar, Lancet Oncol 17:e328)',
      tellsAge: false,
    },
  ]
}

/** How far each part of the response fell. */
export function fallSums(course: Course): readonly Arithmetic[] {
  return responseParts(course)?.falls.flatMap(fallSum) ?? []
}

/** How the points or factors of a model add up. */
export function riskSums(course: Course, risk: readonly RiskAssessment[]): readonly Arithmetic[] {
  return risk.flatMap(({ model, points, factors, group, percent, horizon }): Arithmetic[] => {
    const parts = riskParts(course, model)
    const isPoints = points !== null
    const counted = isPoints ? parts.filter((part) => part.points !== null) : parts.filter(({ met }) => met !== null)
    const total = isPoints ? points : factors
    if (total === null || counted.length === 0 || model === 'high-risk-2025') return []
    const numbers = counted.map((part) => (isPoints ? (part.points ?? 0) : part.met === 'certain' ? 1 : 0))
    const step = exactStep(isPoints ? 'Points' : 'Factors', numbers.join(' + '), decimal(numbers.reduce((sum, one) => sum + one, 0)))
    const told = counted.map(
      ({ input, value, on, threshold }, at) => `${input} ${value ?? 'not known'}${on === null ? '' : ` of ${on}`}, ${threshold}: ${numbers[at]}`,
    )
    const page = modelPage(model)
    return [
      {
        id: `risk-${model}`,
        name: `${page.title}: ${isPoints ? 'points' : 'factors'}`,
        result: `${total}`,
        from: told,
        steps: [step],
        against: group === null ? 'no group can be told' : `${group}${percent === null ? '' : `, ${percent} % at ${horizon}`}`,
        source: `${page.source}${model === 'smouldering-points' ? '; ends of the intervals and per cent (from memory)' : ''}`,
        tellsAge: false,
      },
    ]
  })
}
