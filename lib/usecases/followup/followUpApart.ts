import { askApart, type CallApart, callApart } from '../apart.ts'
import type { Call, Outcome } from '../call.ts'
import type { Progress } from '../intake/incoming.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { keepAudit } from './keptAudits.ts'
import type { FollowUp } from './readFollowUp.ts'
import type { OccasionsView, OccasionsWish } from './readOccasions.ts'
import type { WaitingView, WaitingWish } from './readWaiting.ts'
import { type FollowUpWish, readFollowUpWish } from './readWish.ts'

/** What an audit in a process apart may be asked for, and what each answers. */
export type FollowUpAsked =
  | { readonly what: 'figures'; readonly wish: FollowUpWish }
  | { readonly what: 'occasions'; readonly wish: OccasionsWish }
  | { readonly what: 'waiting'; readonly wish: WaitingWish }
export type FollowUpAnswer = FollowUp | OccasionsView | WaitingView

/** What the process apart is told. */
export type FollowUpApartRequest = CallApart & { readonly asked: FollowUpAsked }

/** Refused here already, so that no process is started for nothing. */
async function apart<T extends FollowUpAnswer>(call: Call, asked: FollowUpAsked, onProgress?: (progress: Progress) => void): Promise<Outcome<T>> {
  const refused = await refusedUnlessMay(call, 'followup.read', 'follow-up audit')
  if (refused !== null) return refused
  const read = readFollowUpWish(call, { whatIf: null, ...asked.wish })
  if (!read.ok) return read
  const request: FollowUpApartRequest = { ...callApart(call), asked }
  return askApart<T>('followUpApart.ts', request, 'The process apart ended without an answer. Nothing was read or changed.', onProgress)
}

/**
 * `workOutFollowUp` in a process of its own: working a whole cohort out never holds up a page. What it came to is kept in this process for those who read it
 * then. Rejects when that process ends early.
 */
export async function workOutFollowUpApart(call: Call, wish: FollowUpWish, onProgress?: (progress: Progress) => void): Promise<Outcome<FollowUp>> {
  const worked = await apart<FollowUp>(call, { what: 'figures', wish }, onProgress)
  const read = readFollowUpWish(call, wish)
  if (worked.ok && read.ok) keepAudit(call.store, read.value, { ...worked.value, workedOutAt: call.now })
  return worked
}

/** `readOccasions` in a process of its own. */
export function readOccasionsApart(call: Call, wish: OccasionsWish, onProgress?: (progress: Progress) => void): Promise<Outcome<OccasionsView>> {
  return apart(call, { what: 'occasions', wish }, onProgress)
}

/** `readWaiting` in a process of its own. */
export function readWaitingApart(call: Call, wish: WaitingWish, onProgress?: (progress: Progress) => void): Promise<Outcome<WaitingView>> {
  return apart(call, { what: 'waiting', wish }, onProgress)
}
