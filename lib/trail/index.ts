/** Who did what: the union of events, the sentence of each, and the hash chain. */
export { canonicalJson } from './canonical.ts'
export { chainHash, FIRST_PREVIOUS, NO_HEAD, nextRow, type TrailHead, verifyChain } from './chain.ts'
export { type Actor, type Decided, PROVIDER_REFUSALS, type ProviderRefusal, type TrailAction, type TrailEvent } from './event.ts'
export type { TrailRow } from './row.ts'
export { trailSays } from './says.ts'
