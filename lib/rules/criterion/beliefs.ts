/** What is believed of growth before any sample is seen (all of it ours). */
export interface Beliefs {
  /** Share of the patients in whom growth has been going on since before the first sample. */
  readonly growingBefore: number
  /** Median time until growth begins in the others. */
  readonly onsetHalfDays: number
  /** Doubling times of growth, each as likely as the next. */
  readonly doublingDays: readonly number[]
}

function equalRatios(from: number, to: number, count: number): readonly number[] {
  return Array.from({ length: count }, (_, at) => from * (to / from) ** (at / (count - 1)))
}

/** Treated disease: growth begins from a level, within two years in half of the patients, and doubles in a week to two years. */
export const TREATED: Beliefs = { growingBefore: 0, onsetHalfDays: 730, doublingDays: equalRatios(7, 730, 12) }

/**
 * MGUS and smouldering myeloma: growth is going on in one patient in five when the samples begin; in the others it begins within five years in
 * half; it doubles in three months to ten years. The steps are fine, because long steady growth tells its doubling time more closely than treated
 * disease does.
 */
export const PRECURSOR: Beliefs = { growingBefore: 0.2, onsetHalfDays: 1826, doublingDays: equalRatios(91, 3652, 24) }
