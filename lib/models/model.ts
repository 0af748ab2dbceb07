/** Every published risk model, and the response, in the order of clinical.md 4. */
export const MODEL_IDS = ['mgus', '20-2-20', '20-2-20-cytogenetics', 'smouldering-points', 'iss', 'r-iss', 'high-risk-2025', 'response'] as const
export type ModelId = (typeof MODEL_IDS)[number]

/** One published risk model applied to one patient (clinical.md 4). */
export interface RiskAssessment {
  readonly model: Exclude<ModelId, 'response'>
  /** Number of factors present; null for models that count points or name stages only. */
  readonly factors: number | null
  readonly points: number | null
  /** The model's own name for the group ("low", "II", "high risk", ...); null when it cannot be told. */
  readonly group: string | null
  /** Published risk in per cent as decimal text; null where the model gives none. */
  readonly percent: string | null
  readonly horizon: '2 years' | '20 years' | null
  /** Inputs that are not known, in words; a factor that is unknown never counts as absent without being named here. */
  readonly missing: readonly string[]
}

export const RESPONSES = ['sCR', 'CR', 'VGPR', 'PR', 'MR', 'SD', 'PD'] as const
export type ResponseCategory = (typeof RESPONSES)[number]

/** IMWG 2016 response of the current line, baseline against the current value. */
export interface ResponseAssessment {
  /** Null where nothing can be said (no line, no baseline). */
  readonly category: ResponseCategory | null
  readonly state: 'unconfirmed' | 'confirmed' | null
  /** True when a part that was needed is missing, and a lower category is given all the same. */
  readonly provisional: boolean
  /** What is missing, in words: "urine not collected". */
  readonly missing: readonly string[]
}
