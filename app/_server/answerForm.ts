import 'server-only'
import { z } from 'zod'
import { ANSWER_KINDS } from '../../lib/results/index.ts'
import { parseDay } from '../../lib/time/index.ts'

const NUMBER = /^[1-9]\d{0,14}$/

export const WORD = z.string().min(1, 'is missing').max(500, 'is too long')
// How long it may be and what it may hold is the use case's to say, in a sentence of its own.
export const TYPED = z.string().max(5000, 'is too long')
/** A day as a date field sends it; null where it was left empty. */
export const DAY = z.string().transform((text, context) => {
  const day = parseDay(text)
  if (day === null && text !== '') context.addIssue({ code: 'custom', message: 'is not a day' })
  return day
})
// A key names every stored result behind its finding.
const KEY = z.string().min(1, 'is missing').max(20_000, 'is too long')
export const FINDING = { patientId: WORD, rule: WORD, key: KEY }

/** Which kind of answer it is, with its note and its day. */
export const ANSWER = { did: z.enum(ANSWER_KINDS), note: TYPED, bringBackOn: DAY }

/** The number of the last thing done about a finding when it was shown; 0 for nothing. */
export const LAST_DONE = z
  .string()
  .regex(/^(0|[1-9]\d{0,14})$/, 'is not a number')
  .transform(Number)

const SHOWN = z.array(z.strictObject({ rule: WORD, key: KEY, lastDone: z.number().int().min(0) })).max(100)

/** Several findings as one field of JSON, as a form has each field once. */
export const FINDINGS = z
  .string()
  .max(500_000, 'is too long')
  .transform((text, context) => {
    try {
      return SHOWN.parse(JSON.parse(text))
    } catch {
      context.addIssue({ code: 'custom', message: 'cannot be read' })
      return z.NEVER
    }
  })

/** Numbers of decisions: `4,5`. */
export const DECISION_IDS = z
  .string()
  .max(2000, 'is too long')
  .refine((text) => text.split(',').every((one) => NUMBER.test(one)), 'is not a list of numbers')
  .transform((text) => text.split(',').map(Number))
