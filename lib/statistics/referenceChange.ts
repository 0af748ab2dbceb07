/** Standard normal quantile, one-sided 95 %. */
export const ONE_SIDED_95 = 1.645

/** Published total variation of stable, untreated patients as a fraction (Katzmann, Clin Chem 2011;57:1687). */
export const TOTAL_CV = { 'serum-m-protein': 0.081, 'urine-m-protein': 0.358, 'involved-flc': 0.284 } as const

/**
 * Reference change value on the log-normal scale, as fractions of the earlier value: a change above `up` or below `down` (negative) is larger than
 * noise. `cv` is the total coefficient of variation as a fraction, `z` the normal quantile. Fokkema 2006; Lund 2015.
 */
export function referenceChange(cv: number, z: number = ONE_SIDED_95): { readonly up: number; readonly down: number } {
  const reach = z * Math.SQRT2 * Math.sqrt(Math.log1p(cv ** 2))
  return { up: Math.expm1(reach), down: Math.expm1(-reach) }
}
