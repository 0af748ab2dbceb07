import { z } from 'zod'
import type { SourceProfile } from '../../intake/index.ts'
import { canonicalJson } from '../../trail/index.ts'

const PROFILE = z.strictObject({
  units: z.record(z.string().min(1), z.string().min(1)),
  decimalSign: z.enum(['point', 'comma']),
  dayOrder: z.enum(['year-first', 'day-first', 'month-first']),
  timeZone: z.string().min(1).nullable(),
  addsPatients: z.boolean(),
})

/** A profile as the database keeps it: the same profile gives the same text. */
export function profileText({ units, decimalSign, dayOrder, timeZone, addsPatients }: SourceProfile): string {
  return canonicalJson({ units: { ...units }, decimalSign, dayOrder, timeZone, addsPatients })
}

/** The profile a stored text holds. Throws where another program changed it into what no profile can be. */
export function profileOf(text: string): SourceProfile {
  return PROFILE.parse(JSON.parse(text))
}
