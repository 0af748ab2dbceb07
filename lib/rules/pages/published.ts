import { type MarkedNumber, ours, publishedIn } from '../../models/index.ts'

/** Numbers that stand on the pages of several rules. */
export const BASELINE_OF_LINE: MarkedNumber = ours(
  'Baseline of a line: the last sample at most 60 days before its start, else the first within 7 days after.',
  'baselineBeforeDays',
  'baselineAfterDays',
)

export const LARGE_RISE: MarkedNumber = ours('A large rise: at least twice the least amount, and the value at least doubled.', 'largeRiseTimes')

export const IONISED_DAYS: MarkedNumber = ours('Ionised calcium counts when it lies at most 7 days from the sample.')

export const STALE_DAYS: MarkedNumber = ours('A sample older than 30 days is stale.')

export const ADJUSTED_CALCIUM: MarkedNumber = publishedIn(
  'after Payne, BMJ 1973;4:643',
  'Adjusted calcium is calcium + 0.02 x (40 - albumin in g/L), in mmol/L.',
)

export const RATIO_INTERVALS: readonly MarkedNumber[] = [
  publishedIn('Katzmann 2002, Clin Chem 48:1437', 'Kappa/lambda ratio normal from 0.26 to 1.65.'),
  publishedIn('Hutchison 2008, CJASN 3:1684', 'From 0.37 to 3.1 where eGFR is below 60.'),
]

/** Total variation in stable untreated patients, and the rise that noise alone can make with it, one-sided 95 %. */
export const VARIATION = 'Katzmann 2011, Clin Chem 57:1687'
