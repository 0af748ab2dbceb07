/** Stands on every export that tells of a finding. */
export const CAUTION = 'Lowmark flags for review. It does not diagnose, attribute or treat; local protocol and the treating physician decide.'
