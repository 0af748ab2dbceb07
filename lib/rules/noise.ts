import { type Decimal, decimal } from '../units/index.ts'

/**
 * Largest rise (as a fraction) that noise alone explains in 95 % of pairs of samples, one-sided: exp(1.645 x sqrt2 x s) - 1 with
 * s = sqrt(ln(1 + CV^2)); total CV in stable untreated patients 8.1 % serum M-protein, 35.8 % urine M-protein, 28.4 % involved
 * free light chain (Katzmann 2011, Clin Chem 57:1687). Rounded to six decimals.
 */
export const REFERENCE_CHANGE = {
  serum: decimal('0.206989'),
  urine: decimal('1.243116'),
  lightChain: decimal('0.911565'),
} as const satisfies Record<string, Decimal>
