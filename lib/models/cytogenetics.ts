import type { Course } from '../course/index.ts'
import { above, type Decimal, decimal, exactly, type Holds } from '../units/index.ts'

/** What is recorded of the clone's genetics. */
export interface Cytogenetics {
  has(name: 't(4;14)' | 't(14;16)' | 't(14;20)' | 'del(13q)' | '1q gain' | 'tp53 mutation' | 'del(17p)'): boolean
  readonly del1p32: 'biallelic' | 'monoallelic' | null
  /** del(17p) in more than 20 % of cells; null where the share of cells is not told. */
  readonly del17pAbove20: Holds | null
}

const PATTERNS = {
  't(4;14)': /^t\(4;14\)/,
  't(14;16)': /^t\(14;16\)/,
  't(14;20)': /^t\(14;20\)/,
  'del(13q)': /^(del\(13q?|monosomy13|-13)/,
  '1q gain': /^(1q(21)?(gain|amp|\+)|(gain|amp)\(?1q|\+1q)/,
  'tp53 mutation': /^tp53/,
  'del(17p)': /^del\(17p/,
} as const
const SHARE = /(\d+(?:\.\d+)?)%/
/** Share of cells, per cent, above which del(17p) makes high risk (Avet-Loiseau 2025). */
export const DEL17P_SHARE: Decimal = decimal('20')
/** Genetics that raise the risk of smouldering myeloma (Mateos 2020). */
export const SMOULDERING_GENETICS = ['t(4;14)', 't(14;16)', '1q gain', 'del(13q)'] as const

function shareAbove20(names: readonly string[]): Holds | null {
  const losses = names.filter((name) => PATTERNS['del(17p)'].test(name))
  if (losses.length === 0) return 'no'
  const shares = losses.map((name) => SHARE.exec(name)?.[1]).filter((share) => share !== undefined)
  if (shares.some((share) => above(exactly(share), DEL17P_SHARE) === 'certain')) return 'certain'
  return shares.length === losses.length ? 'no' : null
}

/**
 * The genetics recorded with any marrow up to now: what was once found in the clone stays. Null where no marrow names an abnormality (an empty
 * field does not tell "none found" from "not examined"); a marrow that says "none" or "normal" was examined.
 */
export function cytogeneticsOf(course: Course): Cytogenetics | null {
  const names = course.marrow.flatMap((sample) => sample.abnormalities).map((name) => name.toLowerCase().replace(/\s+/g, ''))
  if (names.length === 0) return null
  const lossOf1p = names.filter((name) => name.includes('del(1p32'))
  return {
    has: (name) => names.some((recorded) => PATTERNS[name].test(recorded)),
    del1p32: lossOf1p.some((name) => name.includes('biallelic')) ? 'biallelic' : lossOf1p.length > 0 ? 'monoallelic' : null,
    del17pAbove20: shareAbove20(names),
  }
}

/** Holds where a yes or no is known for sure. */
export function sure(yes: boolean): Holds {
  return yes ? 'certain' : 'no'
}
