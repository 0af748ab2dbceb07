import type { LightChain } from '../results/index.ts'
import type { Day } from '../time/index.ts'
import type { InvolvedChain, LightChainPair, RatioInterval } from './course.ts'
import { ratioAbove, ratioBelow } from './ratioInterval.ts'

/**
 * The involved light chain: from the diagnosis; else from the first ratio that certainly lies outside its reference interval (kappa above,
 * lambda below); else not known, and no light-chain rule runs.
 */
export function involvedChain(
  diagnosed: LightChain | null,
  pairs: readonly LightChainPair[],
  intervalOn: (on: Day) => RatioInterval,
): InvolvedChain | null {
  if (diagnosed !== null) return { chain: diagnosed, from: 'diagnosis' }
  for (const { on, kappa, lambda } of pairs) {
    const chains = { kappa: kappa.value, lambda: lambda.value }
    const interval = intervalOn(on)
    if (ratioAbove(chains, interval) === 'certain') return { chain: 'kappa', from: 'ratio' }
    if (ratioBelow(chains, interval) === 'certain') return { chain: 'lambda', from: 'ratio' }
  }
  return null
}
