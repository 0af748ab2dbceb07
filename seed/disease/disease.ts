import type { Isotype } from './isotype.ts'

/** One patient's disease: what a clone of mass 1 (its mass at diagnosis) makes, and what is there without it. */
export interface Disease {
  readonly isotype: Isotype
  /** Serum M-protein in steady state at mass 1, g/L. */
  readonly serum: number
  /** Urine M-protein at mass 1, mg/24 h; 0 where the kidneys let nothing through. */
  readonly urine: number
  /** Involved free light chain above its background at mass 1, mg/L. */
  readonly freeLight: number
  /** Free light chains without the clone, mg/L. */
  readonly background: { readonly kappa: number; readonly lambda: number }
  /** Marrow plasma cells at mass 1, %. */
  readonly marrow: number
  /** How far the other immunoglobulins and the uninvolved chain are pressed down at mass 1: 0 not at all, 1 wholly. */
  readonly paresis: number
  /** Haemoglobin lost at mass 1, g/L. */
  readonly anaemia: number
  readonly abnormalities: readonly string[]
}
