import { type Figures, figuresOf } from '../../followup/index.ts'
import type { Call } from '../call.ts'
import type { Progress } from '../intake/incoming.ts'
import { auditInParts } from './auditInParts.ts'
import type { Find, Found } from './auditPart.ts'
import type { ReadFollowUpWish } from './readWish.ts'

/** What an audit came to, and of which state of the data. */
export interface WorkedOut {
  readonly figures: Figures
  /** The same period under another version of the plan; null where none was asked for. */
  readonly whatIf: Figures | null
  /** How many changes the data had seen when they were read: the same number, the same data. */
  readonly revision: number
}

const NO_ROWS = { held: [], intake: new Map<number, number>() }

/** Works the figures out, and finds the tests that are asked for one by one. */
export async function workOut(
  call: Call,
  wish: ReadFollowUpWish,
  find: Find | null,
  onProgress?: (progress: Progress) => void,
): Promise<WorkedOut & { readonly found: readonly Found[] }> {
  const { revision, audit, found, rows, planChanges } = await auditInParts(call, { ...wish, find }, onProgress)
  const figures = figuresOf(wish.period, audit.counts, rows ?? NO_ROWS, planChanges)
  const whatIf = audit.whatIf === null ? null : figuresOf(wish.period, audit.whatIf, rows ?? NO_ROWS)
  return { figures, whatIf, revision, found }
}
