import 'server-only'
import { z } from 'zod'
import { CARES, INTENTS, PHASES } from '../../lib/results/index.ts'
import { parseDay } from '../../lib/time/index.ts'
import type { WishedChange } from '../../lib/usecases/index.ts'
import { TYPED, WORD } from './answerForm.ts'

/** The stamp of the consequence that was shown; empty before one was. */
export const STAMP = z.string().max(200, 'is too long').optional()

const ON = z.string().transform((text, context) => {
  const day = parseDay(text)
  if (day !== null) return day
  context.addIssue({ code: 'custom', message: text === '' ? 'is missing' : 'is not a day' })
  return z.NEVER
})
const LINE = z
  .string()
  .regex(/^[1-9]\d{0,2}$/, 'is not a number of a line')
  .transform(Number)
const INTENT = z.enum(['', ...INTENTS]).transform((text) => (text === '' ? null : text))
const YES = z
  .literal('yes')
  .optional()
  .transform((text) => text === 'yes')

const SENT = { patientId: WORD, reason: TYPED, shown: STAMP }
const WAS = { wasPhase: z.enum(PHASES), wasOn: ON }
const PHASE = { phase: z.enum(PHASES), began: ON, stepsBack: YES }
const BEGUN = { began: ON, regimen: z.string().max(1500, 'is too long'), intent: INTENT }

/** Every change of the course as its form sends it. */
export const COURSE_FORM = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('phase-recorded'), ...SENT, ...PHASE }),
  z.strictObject({ kind: z.literal('phase-corrected'), ...SENT, ...PHASE, ...WAS }),
  z.strictObject({ kind: z.literal('phase-withdrawn'), ...SENT, ...WAS }),
  z.strictObject({ kind: z.literal('line-started'), ...SENT, ...BEGUN }),
  z.strictObject({ kind: z.literal('line-corrected'), ...SENT, ...BEGUN, line: LINE }),
  z.strictObject({ kind: z.literal('line-ended'), ...SENT, line: LINE, ended: ON }),
  z.strictObject({ kind: z.literal('line-goes-on'), ...SENT, line: LINE }),
  z.strictObject({ kind: z.literal('line-withdrawn'), ...SENT, line: LINE }),
  z.strictObject({ kind: z.literal('care-changed'), ...SENT, care: z.enum(CARES), began: ON }),
  z.strictObject({ kind: z.literal('clinician-changed'), ...SENT, clinician: WORD }),
])

/** What the form wishes, without who it is of and why. */
export function changeOf(sent: z.output<typeof COURSE_FORM>): WishedChange {
  const { patientId: _, reason: __, shown: ___, ...wish } = sent
  if (!('wasPhase' in wish)) return wish
  const { wasPhase, wasOn, ...change } = wish
  return { ...change, was: { phase: wasPhase, on: wasOn } }
}
