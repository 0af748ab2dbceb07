import type { Finding } from './finding.ts'

/** Tells one finding of one rule in words: what a nurse reads, with its numbers, never a diagnosis. */
export type Sentence = (finding: Finding) => string
