import { z } from 'zod'
import { NEWS } from '../../review/index.ts'
import { WINDOWS } from '../../rules/index.ts'
import type { ListQuery } from '../views.ts'

const WORD = z.string().min(1).max(100).nullable()

/** What a saved view keeps of what the list is asked. Neither a pseudonym nor a page, nor a round: it always means the last one. */
export const ASKS = z.strictObject({
  window: z.enum(WINDOWS).nullable(),
  phase: WORD,
  clinician: WORD,
  rule: WORD,
  mine: z.boolean(),
  handed: z.boolean(),
  news: z.enum(NEWS).nullable(),
  has: z.union([z.enum(['me', 'nobody']), z.number().int().min(1)]).nullable(),
  sort: z.enum(['urgency', 'waiting', 'listed', 'next-due', 'patient']),
  descending: z.boolean(),
})
export type Asks = z.infer<typeof ASKS>

/** What of a question can be kept. */
export function asksOf({ window, phase, clinician, rule, mine = false, handed = false, news = null, has = null, sort, descending }: ListQuery): Asks {
  return { window, phase, clinician, rule, mine, handed, news, has, sort, descending }
}

/** Nothing is filtered and the order is the usual one: there is nothing to keep. */
export function asksNothing({ mine, handed, sort, descending, ...filters }: Asks): boolean {
  return !mine && !handed && !descending && sort === 'urgency' && Object.values(filters).every((value) => value === null)
}
