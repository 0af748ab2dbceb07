import type { Store } from '../../store/index.ts'
import type { Call } from '../call.ts'
import { partsFor, WHOLE } from '../inParts.ts'
import { renewPart } from './renewPart.ts'
import { staleToday } from './staleToday.ts'
import { askStandingParts } from './standingPart.ts'

/** From so many answers on other processes work them out: below, starting those takes longer than they save. (ours) */
const HELPED_FROM = 400

// Who comes while a renewal is under way in this process waits for it, instead of working out the same once more.
const underWay = new WeakMap<Store, Promise<unknown>>()

async function renew(call: Call, stale: number, helpedFrom: number): Promise<number> {
  const count = partsFor(stale, helpedFrom)
  // What a process apart leaves undone, for whatever reason, is done here.
  if (count > 1) await askStandingParts(call, 'renew', count).catch(() => undefined)
  const here = await renewPart(call, WHOLE)
  return count > 1 ? stale : here
}

/**
 * Evaluates again only those whose answer no longer holds: the day has passed, or rules or plan have another version. Many are worked out in as many processes as the
 * machine has processors. Returns how many.
 */
export async function renewStandings(call: Call, helpedFrom = HELPED_FROM): Promise<number> {
  for (let other = underWay.get(call.store); other !== undefined; other = underWay.get(call.store)) await other.catch(() => undefined)
  const { stale } = staleToday(call)
  if (stale.length === 0) return 0
  const renewing = renew(call, stale.length, helpedFrom).finally(() => underWay.delete(call.store))
  underWay.set(call.store, renewing)
  return renewing
}
