import { type CallApart, callApart } from '../apart.ts'
import type { Call, Outcome } from '../call.ts'
import { askInParts, type Part, partsFor, WHOLE } from '../inParts.ts'
import type { Progress } from '../intake/incoming.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { addAudits } from './auditCohort.ts'
import { auditPart, type PartDone, type PartWish } from './auditPart.ts'

/** What a process apart that audits a part of the cohort is told. */
export interface PartRequest extends CallApart {
  readonly wish: PartWish
}

/** From so many patients on other processes help: below, starting them takes longer than they save. (ours) */
const HELPED_FROM = 1000

/**
 * Audits the whole cohort: a large one in as many processes as the machine has processors. Where the data changed while those began to read, so that not all
 * saw one state, all is worked out again here, in one snapshot.
 */
export async function auditInParts(
  call: Call,
  wish: Omit<PartWish, keyof Part>,
  onProgress?: (progress: Progress) => void,
  helpedFrom = HELPED_FROM,
): Promise<PartDone> {
  const { reader } = call.store
  const count = partsFor(reader.patientIds().length, helpedFrom)
  if (count < 2) return auditPart(reader, { ...wish, ...WHOLE }, onProgress)
  const requestOf = (part: Part): PartRequest => ({ ...callApart(call), wish: { ...wish, ...part } })
  const done = await askInParts<PartDone>('followUpPart.ts', count, requestOf, 'A part of the cohort was not audited.', onProgress)
  const first = done[0]
  if (first === undefined || done.some(({ revision }) => revision !== first.revision)) {
    return auditPart(reader, { ...wish, ...WHOLE }, onProgress)
  }
  return {
    ...first,
    audit: addAudits(done.map(({ audit }) => audit)),
    found: done.flatMap(({ found }) => found),
    waiting: done.flatMap(({ waiting }) => waiting),
  }
}

/** What a process apart answers that audits a part of the cohort. */
export async function auditPartApart(call: Call, wish: PartWish, onProgress?: (progress: Progress) => void): Promise<Outcome<PartDone>> {
  const refused = await refusedUnlessMay(call, 'followup.read', 'follow-up audit')
  return refused ?? { ok: true, value: auditPart(call.store.reader, wish, onProgress) }
}
