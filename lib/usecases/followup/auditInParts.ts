import { availableParallelism } from 'node:os'
import { askApart, type CallApart, callApart } from '../apart.ts'
import type { Call, Outcome } from '../call.ts'
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
/** More processes read the same file no faster. (ours) */
const MOST_PARTS = 8

function sumOf(progress: readonly Progress[]): Progress {
  const sum = (of: 'done' | 'of') => progress.reduce((total, one) => total + one[of], 0)
  return { step: progress[0]?.step ?? '', done: sum('done'), of: sum('of') }
}

async function parts(
  call: Call,
  wish: Omit<PartWish, 'part' | 'parts'>,
  count: number,
  onProgress?: (progress: Progress) => void,
): Promise<readonly PartDone[]> {
  const told: Progress[] = []
  const asked = Array.from({ length: count }, async (_, part) => {
    const request: PartRequest = { ...callApart(call), wish: { ...wish, part, parts: count } }
    const outcome = await askApart<PartDone>('followUpPart.ts', request, 'A part of the cohort was not audited.', (progress) => {
      told[part] = progress
      onProgress?.(sumOf(told.filter((one) => one !== undefined)))
    })
    if (!outcome.ok) throw new Error(outcome.reason)
    return outcome.value
  })
  return Promise.all(asked)
}

/**
 * Audits the whole cohort: a large one in as many processes as the machine has processors. Where the data changed while those began to read, so that not all
 * saw one state, all is worked out again here, in one snapshot.
 */
export async function auditInParts(
  call: Call,
  wish: Omit<PartWish, 'part' | 'parts'>,
  onProgress?: (progress: Progress) => void,
  helpedFrom = HELPED_FROM,
): Promise<PartDone> {
  const { reader } = call.store
  const count = Math.min(availableParallelism(), MOST_PARTS)
  if (count < 2 || reader.patientIds().length < helpedFrom) return auditPart(reader, { ...wish, part: 0, parts: 1 }, onProgress)
  const done = await parts(call, wish, count, onProgress)
  const first = done[0]
  if (first === undefined || done.some(({ revision }) => revision !== first.revision)) {
    return auditPart(reader, { ...wish, part: 0, parts: 1 }, onProgress)
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
