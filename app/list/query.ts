import { z } from 'zod'
import { NEWS } from '../../lib/review/index.ts'
import { WINDOWS } from '../../lib/rules/index.ts'
import type { ListQuery } from '../../lib/usecases/index.ts'

export type Given = Readonly<Record<string, string | readonly string[] | undefined>>

const PAGE_SIZE = 50

// What an address cannot mean is left out rather than refused: an old bookmark still shows the list.
const one = z.string().trim().min(1).max(100).nullable().catch(null)
const SCHEMA = z.object({
  window: z.enum(WINDOWS).nullable().catch(null),
  phase: one,
  clinician: one,
  rule: one,
  pseudonym: one,
  mine: z.enum(['yes', 'no']).catch('no'),
  handed: z.enum(['yes', 'no']).catch('no'),
  news: z.enum(NEWS).nullable().catch(null),
  since: z.coerce.number().int().min(1).max(1_000_000).nullable().catch(null),
  has: z
    .union([z.enum(['me', 'nobody']), z.coerce.number().int().min(1).max(1_000_000)])
    .nullable()
    .catch(null),
  sort: z.enum(['urgency', 'waiting', 'listed', 'next-due', 'patient']).catch('urgency'),
  order: z.enum(['up', 'down']).catch('up'),
  page: z.coerce.number().int().min(1).max(100_000).catch(1),
})

/** What the address of the review list asks for. */
export function readQuery(given: Given): ListQuery {
  const { order, mine, handed, ...asked } = SCHEMA.parse(given)
  return { ...asked, mine: mine === 'yes', handed: handed === 'yes', descending: order === 'down', pageSize: PAGE_SIZE }
}

/** The same, as the address of a request has it. */
export const queryOf = (request: Request): ListQuery => readQuery(Object.fromEntries(new URL(request.url).searchParams))
