import { type Course, type Measurement, ratioIntervalFor } from '../course/index.ts'
import type { FactorOn, RiskOverTime } from '../models/index.ts'
import { decimal, isExact, roundedText } from '../units/index.ts'
import { evidenceOf, keptText } from './evidence.ts'
import { ratioOf } from './excess.ts'
import type { Evidence } from './finding.ts'
import { marrowPercents } from './marrow.ts'

/** What a sample tells of one risk factor: its value and where the factor begins in words, the samples behind it, and how far above that it lies. */
export interface FactorTold {
  readonly value: string
  readonly begins: string
  readonly samples: readonly Measurement[]
  readonly evidence: (role: Evidence['role']) => readonly Evidence[]
  readonly excess: number
}

type Model = RiskOverTime['model']

/** Where each factor begins, in words and as a number in the unit kept (Rajkumar 2005; Mateos 2020). */
const BEGINS = {
  mgus: { serum: ['15 g/L or more', '15'], ratio: 'outside its interval' },
  '20-2-20': { serum: ['above 20 g/L', '20'], ratio: 'above 20' },
} as const
const TWENTY = decimal('20')

const limitsOf = (model: Model) => (model === 'mgus' ? BEGINS.mgus : BEGINS['20-2-20'])

function single(what: string, analyte: string, unit: string, sample: Measurement | undefined, begins: string, from: string): FactorTold | null {
  if (sample === undefined) return null
  return {
    value: `${what} ${keptText(sample, unit)} of ${sample.on}`,
    begins,
    samples: [sample],
    evidence: (role) => [evidenceOf(role, analyte, unit, sample)],
    excess: ratioOf(sample.value.low, decimal(from)),
  }
}

function ratio(course: Course, model: Model, on: FactorOn['sampledOn']): FactorTold | null {
  const pair = course.lightChains.find((chains) => chains.on === on)
  if (pair === undefined) return null
  const { kappa, lambda } = pair
  const lambdaOverKappa = model !== 'mgus' && course.involved?.chain === 'lambda'
  const [over, under] = lambdaOverKappa ? [lambda, kappa] : [kappa, lambda]
  const isNumber = isExact(over.value) && isExact(under.value) && under.value.low.gt(0)
  const number = isNumber ? ` ${roundedText(over.value.low.div(under.value.low), 2)}` : ''
  const interval = ratioIntervalFor(course, pair.on)
  const excess =
    model === 'mgus'
      ? Math.max(
          ratioOf(kappa.value.low, lambda.value.low.times(decimal(interval.high))),
          ratioOf(kappa.value.low.gt(0) ? lambda.value.low.times(decimal(interval.low)) : decimal('0'), kappa.value.low),
        )
      : ratioOf(over.value.low, under.value.low.times(TWENTY))
  return {
    value: `${model === 'mgus' ? 'kappa/lambda ratio' : 'involved ratio'}${number} of ${pair.on}`,
    begins: limitsOf(model).ratio,
    samples: [kappa, lambda],
    evidence: (role) => [evidenceOf(role, 'kappa-flc', 'mg/L', kappa), evidenceOf(role, 'lambda-flc', 'mg/L', lambda)],
    excess,
  }
}

/** The sample a factor rested on, told; null for one that rests on none. */
export function factorTold(course: Course, model: Model, { name, sampledOn }: FactorOn): FactorTold | null {
  const [begins, from] = limitsOf(model).serum
  switch (name) {
    case 'serum-m-protein': {
      const sample = course.markers['serum-m-protein'].samples.find(({ on }) => on === sampledOn)
      return single('M-protein', name, 'g/L', sample, begins, from)
    }
    case 'marrow-plasma-cells': {
      const sample = marrowPercents(course).find(({ on }) => on === sampledOn)
      return single('marrow plasma cells', name, '%', sample, 'above 20 %', '20')
    }
    case 'light-chain-ratio':
      return ratio(course, model, sampledOn)
    default:
      return null
  }
}
