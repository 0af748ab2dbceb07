import type { LabResult } from '../results/index.ts'
import { compareDays, type Day } from '../time/index.ts'
import type { Interval } from '../units/index.ts'
import type { Course, LightChainPair, Measurement } from './course.ts'
import { isSample, outrankingBy, outranks } from './oneADay.ts'
import { hasNumber, sampleFrom } from './sample.ts'

const sampleKey = (result: LabResult): string => `${result.collected.on}|${result.laboratory ?? ''}`

/**
 * Kappa and lambda of one sample, oldest first, one pair a day. Chains of different laboratories are never joined; where two laboratories
 * measured both chains on one day, the pair whose kappa counts (`outranks`) is taken.
 */
export function pairLightChains(results: readonly LabResult[]): readonly LightChainPair[] {
  const of = (analyte: LabResult['analyte']) =>
    outrankingBy(
      results.filter((result) => result.analyte === analyte && isSample(result)),
      sampleKey,
    )
  const lambdas = of('lambda-flc')
  const byDay = new Map<Day, readonly [kappa: LabResult, lambda: LabResult]>()
  for (const [key, kappa] of of('kappa-flc')) {
    const lambda = lambdas.get(key)
    if (lambda === undefined) continue
    const rival = byDay.get(kappa.collected.on)
    if (rival === undefined || outranks(kappa, rival[0]) > 0) byDay.set(kappa.collected.on, [kappa, lambda])
  }
  const pairs: LightChainPair[] = []
  for (const [on, [kappaResult, lambdaResult]] of byDay) {
    const kappa = { ...sampleFrom(kappaResult), results: [kappaResult, lambdaResult] }
    const lambda = { ...sampleFrom(lambdaResult), results: [lambdaResult, kappaResult] }
    if (hasNumber(kappa) && hasNumber(lambda)) pairs.push({ on, kappa, lambda })
  }
  return pairs.sort((a, b) => compareDays(a.on, b.on))
}

/** Both chains of one sample with the involved one named. mg/L. */
export interface InvolvedPair {
  readonly on: Day
  readonly kappa: Interval
  readonly lambda: Interval
  readonly involved: Interval
  readonly uninvolved: Interval
  /** The sample of the involved chain, as it stands in the marker `involved-flc`; its results name both chains. */
  readonly sample: Measurement
}

/** Every sample with both light chains, oldest first; empty when the involved chain is not known. */
export function lightChainPairs(course: Pick<Course, 'involved' | 'lightChains'>): readonly InvolvedPair[] {
  const chain = course.involved?.chain
  if (chain === undefined) return []
  return course.lightChains.map(({ on, kappa, lambda }) => {
    const [sample, other] = chain === 'kappa' ? [kappa, lambda] : [lambda, kappa]
    return { on, kappa: kappa.value, lambda: lambda.value, involved: sample.value, uninvolved: other.value, sample }
  })
}
