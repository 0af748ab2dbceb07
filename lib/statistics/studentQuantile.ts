import { betaFraction } from './betaFraction.ts'

/** Upper tail of Student's t. */
function tail(t: number, degrees: number): number {
  return betaFraction(degrees / (degrees + t * t), degrees / 2, 0.5) / 2
}

/** The t with probability `p` below it, `0.5 <= p < 1`, for one degree of freedom or more; by bisection to the last digit a number holds. */
export function studentQuantile(p: number, degrees: number): number {
  let low = 0
  let high = 1
  while (tail(high, degrees) > 1 - p) high *= 2
  for (let half = (low + high) / 2; half > low && half < high; half = (low + high) / 2) {
    if (tail(half, degrees) > 1 - p) low = half
    else high = half
  }
  return (low + high) / 2
}
