/** Names the rules an answer was made by; it changes whenever a rule can answer differently. */
export const RULES_VERSION = '2026-11-26.5'
