import { createHash } from 'node:crypto'
import type { Call, Outcome } from '../call.ts'
import type { Progress } from '../intake/incoming.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { type FollowUpWish, readFollowUpWish } from './readWish.ts'
import { type WorkedOut, workOut } from './workOut.ts'

/** An audit as it is shown: its figures with their SHA-256. The same data, plan and period give the same. */
export interface FollowUp extends WorkedOut {
  readonly sha256: string
}

/** SHA-256 (hexadecimal) of figures. */
export function figuresSha256({ figures, whatIf }: Pick<WorkedOut, 'figures' | 'whatIf'>): string {
  return createHash('sha256')
    .update(JSON.stringify([figures, whatIf]))
    .digest('hex')
}

/** Writes down that somebody read an audit, and which. */
export async function recordReading(
  call: Call,
  { figures: { from, to, cutOff }, revision, sha256 }: FollowUp,
  whatIf: number | null,
  as?: 'file',
): Promise<void> {
  const told = { from, to, cutOff, revision, whatIf, sha256, ...(as === undefined ? {} : { as }) }
  await call.store.record(call, () => ({ value: null, events: [{ action: 'follow-up-read', ...told }] }))
}

/** Works an audit out and shows it to nobody, so nothing is logged: whoever shows it does that. Long for a large cohort. */
export async function workOutFollowUp(call: Call, wish: FollowUpWish, onProgress?: (progress: Progress) => void): Promise<Outcome<FollowUp>> {
  const refused = await refusedUnlessMay(call, 'followup.read', 'follow-up audit')
  if (refused !== null) return refused
  const read = readFollowUpWish(call, wish)
  if (!read.ok) return read
  const { found: _, ...worked } = await workOut(call, read.value, null, onProgress)
  return { ok: true, value: { ...worked, sha256: figuresSha256(worked) } }
}

/** Works out the follow-up audit of a period and logs that it was read. Long for a large cohort: pages ask `workOutFollowUpApart` first. */
export async function readFollowUp(
  call: Call,
  wish: FollowUpWish,
  { as, onProgress }: { readonly as?: 'file'; readonly onProgress?: (progress: Progress) => void } = {},
): Promise<Outcome<FollowUp>> {
  const worked = await workOutFollowUp(call, wish, onProgress)
  if (worked.ok) await recordReading(call, worked.value, wish.whatIf, as)
  return worked
}
