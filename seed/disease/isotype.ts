import type { HeavyChain, LightChain } from '../../lib/results/index.ts'

/** What the clone makes. `none` makes a free light chain only. */
export interface Isotype {
  readonly heavy: HeavyChain | 'none'
  readonly light: LightChain
}

/**
 * Half-life in serum, days: what decides how fast an M-protein falls once its clone is gone.
 * IgG 21, IgA 6, IgM 5, IgD 3, IgE 2: common textbook values (from memory).
 */
export const HALF_LIFE_DAYS: Readonly<Record<HeavyChain, number>> = { G: 21, A: 6, M: 5, D: 3, E: 2 }

/** How a laboratory writes the band: "IgG kappa", "free lambda". */
export function bandName({ heavy, light }: Isotype): string {
  return heavy === 'none' ? `free ${light}` : `Ig${heavy} ${light}`
}
