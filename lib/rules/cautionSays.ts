import type { Caution } from './finding.ts'

/** Every caution in words. */
export const CAUTION_SAYS: Readonly<Record<Caution, string>> = {
  'one-sample': 'Rests on one sample; a second one has not confirmed it.',
  censored: 'A value is known only as a limit (such as "<1" or ">5000"), so the comparison is a range.',
  'lowest-not-confirmed': 'Two samples show it against the lowest value, but the lowest value itself was reached only once.',
  'method-changed': 'The values come from different laboratories or methods and may not be comparable.',
  'unit-suspect': 'The value is about 10 or 100 times the one before, or a tenth or a hundredth of it: check the unit.',
  'antibody-drug': 'A therapeutic antibody (daratumumab, isatuximab or elotuzumab) can show as an IgG kappa band.',
  'renal-interval': 'The light-chain ratio was held against the interval for reduced kidney function.',
  'ionised-normal': 'Ionised calcium near that day was not above its upper limit: large M-proteins bind calcium.',
  'inside-noise': 'The change is no larger than noise alone can make it in a stable patient.',
  stale: 'The sample is older than 30 days.',
  'attributed-elsewhere': 'A physician recorded another cause.',
  'removed-by-correction': 'A corrected, final, cancelled or withdrawn result, or a revoked mapping, took it back.',
  'created-by-correction': 'It came with a corrected, final, cancelled or withdrawn result, or with a revoked mapping.',
}
