const STEPS = 500
const ENOUGH = 1e-16
const TINY = 1e-300

// Lanczos, g = 7, n = 9: relative error below 1e-14 for arguments of 0.5 and more.
const LANCZOS = [
  676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059, 12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6,
  1.5056327351493116e-7,
]

function logGamma(x: number): number {
  const series = LANCZOS.reduce((sum, term, at) => sum + term / (x + at), 0.99999999999980993)
  const base = x + 6.5
  return 0.5 * Math.log(2 * Math.PI) + (x - 0.5) * Math.log(base) - base + Math.log(series)
}

const awayFromZero = (value: number): number => (Math.abs(value) < TINY ? TINY : value)

function continuedFraction(x: number, a: number, b: number): number {
  let c = 1
  let d = 1 / awayFromZero(1 - ((a + b) * x) / (a + 1))
  let fraction = d
  for (let m = 1; m <= STEPS; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
    d = 1 / awayFromZero(1 + even * d)
    c = awayFromZero(1 + even / c)
    fraction *= d * c
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1))
    d = 1 / awayFromZero(1 + odd * d)
    c = awayFromZero(1 + odd / c)
    fraction *= d * c
    if (Math.abs(d * c - 1) < ENOUGH) break
  }
  return fraction
}

/** Regularised incomplete beta function I_x(a, b) for 0 <= x <= 1, by its continued fraction (NIST DLMF 8.17.22). */
export function betaFraction(x: number, a: number, b: number): number {
  if (x <= 0) return 0
  if (x >= 1) return 1
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x))
  return x < (a + 1) / (a + b + 2) ? (front * continuedFraction(x, a, b)) / a : 1 - (front * continuedFraction(1 - x, b, a)) / b
}
