import 'server-only'
import { z } from 'zod'
import { PLAN_CHOICES } from '../../lib/plan/index.ts'
import type { PlanWish } from '../../lib/usecases/index.ts'

// Long enough for whatever a person types: what is wrong with it is said beside its field, not here.
const TYPED = z.string().trim().max(2000, 'is too long')

export const PLAN_VERSION = z
  .string()
  .regex(/^\d{1,9}$/, 'is not the number of a version')
  .transform(Number)

const NUMBERS = PLAN_CHOICES.flatMap(({ id, kind }): [string, typeof TYPED][] =>
  kind === 'interval'
    ? [
        [id, TYPED],
        [`${id}.unit`, TYPED],
      ]
    : [[id, TYPED]],
)

/** The form of a proposal: every number of the plan, the first day, the note, and the version it was drawn from. */
export const PLAN_FORM = z.strictObject({ ...Object.fromEntries(NUMBERS), from: TYPED, note: TYPED, basedOn: PLAN_VERSION })

function wholeNumber(text: string): number | null {
  return /^\d{1,7}$/.test(text) ? Number(text) : null
}

/** What was typed as numbers and intervals; what is none stays the text it is, and is refused by its name further in. */
export function planWish({ basedOn, from, note, ...typed }: z.output<typeof PLAN_FORM>): PlanWish & { readonly note: string } {
  const fields = typed as Readonly<Record<string, string>>
  const changes = PLAN_CHOICES.map(({ id, kind }): [string, unknown] => {
    const text = fields[id] ?? ''
    const number = wholeNumber(text)
    if (kind === 'word' || number === null) return [id, text]
    return [id, kind === 'interval' ? { [fields[`${id}.unit`] ?? '']: number } : number]
  })
  return { changes: Object.fromEntries(changes), from, basedOn, note }
}
