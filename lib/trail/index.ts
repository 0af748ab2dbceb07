/** Who did what: the union of events, the sentence of each, and the hash chain. */
export { auditEventOf, type PatientsTold } from './auditEvent.ts'
export { canonicalJson, canonicalSha256 } from './canonical.ts'
export { chainHash, FIRST_PREVIOUS, follows, NO_HEAD, nextRow, type TrailHead, verifyChain } from './chain.ts'
export type { CourseChanged } from './courseEvent.ts'
export {
  type Actor,
  type Decided,
  PROVIDER_REFUSALS,
  type ProviderRefusal,
  type TrailAction,
  type TrailEvent,
} from './event.ts'
export { compareHeads, type HeadsCheck, headLine, type KeptHead, type LogToCompare, readHeads } from './heads.ts'
export { LOG_QUESTIONS, type LogAsked } from './logAsked.ts'
export { patientsOf } from './patientsOf.ts'
export { type ReadEntry, readAuditEvent } from './readAuditEvent.ts'
export type { TrailRow } from './row.ts'
export { type Telling, TRAIL_ACTIONS, trailSays } from './says.ts'
export { SHOWING_ACTIONS, shownPatients } from './shows.ts'
