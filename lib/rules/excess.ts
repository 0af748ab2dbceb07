import type { Decimal } from '../units/index.ts'

/** `part / whole` as a plain number for ordering only; 1 where the ratio has no meaning. */
export function ratioOf(part: Decimal, whole: Decimal): number {
  if (whole.lte(0) || part.lte(0)) return 1
  const ratio = Number(part.toString()) / Number(whole.toString())
  return Number.isFinite(ratio) ? ratio : 1
}
