import 'server-only'
import { z } from 'zod'
import { DIMENSIONS, WAITING } from '../../lib/followup/index.ts'
import {
  type Call,
  type FollowUpWish,
  type OccasionsWish,
  type Outcome,
  type Progress,
  readOccasionsApart,
  readWaitingApart,
  workOutFollowUpApart,
} from '../../lib/usecases/index.ts'
import { answerInLines, refusalInLines } from './answerInLines.ts'
import { askerInLines, formInLines } from './formInLines.ts'
import { readForm } from './guard.ts'

const MOST_BYTES = 16 * 1024
const DAY = z.string().trim().max(20, 'is too long')
const UNTIL = DAY.transform((text) => (text === '' ? null : text))
const PERIOD = { from: DAY, to: DAY, until: UNTIL }
const WORK = z.strictObject({ ...PERIOD, plan: z.union([z.literal('').transform(() => null), z.coerce.number().int().min(1).max(999_999_999)]) })
const TESTS = z.strictObject({
  ...PERIOD,
  by: z.enum(DIMENSIONS),
  key: z.string().trim().max(200, 'is too long'),
  verdict: z.union([z.literal('').transform(() => null), z.enum(['on-time', 'late', 'missed'])]),
})
const WAITS = z.strictObject({ ...PERIOD, what: z.enum(WAITING) })

async function inLines<S extends z.ZodType, T>(
  request: Request,
  schema: S,
  work: (call: Call, input: z.output<S>, onProgress: (progress: Progress) => void) => Promise<Outcome<T>>,
): Promise<Response> {
  const asker = await askerInLines(request, 'followup.read', 'follow-up audit')
  if (!asker.ok) return refusalInLines(asker)
  const form = await formInLines(request, MOST_BYTES)
  if (!form.ok) return refusalInLines(form)
  const read = readForm(schema, form.value)
  if (!read.ok) return refusalInLines(read)
  return answerInLines(asker.value, (onProgress) => work(asker.value.call, read.value, onProgress), {
    broken: 'The audit was not worked out to the end. Nothing was changed; try again.',
    unheard: 'Nothing was changed. Sign in and try again.',
  })
}

/** Works an audit out and keeps it for its page. Answers with lines as it goes, the last with what state of the data it is of; it tells no figure. */
export function workOutInLines(request: Request): Promise<Response> {
  return inLines(request, WORK, async (call, { from, to, until, plan }, onProgress) => {
    const wish: FollowUpWish = { from, to, cutOff: until, whatIf: plan }
    const worked = await workOutFollowUpApart(call, wish, onProgress)
    return worked.ok ? { ok: true, value: { revision: worked.value.revision, sha256: worked.value.sha256 } } : worked
  })
}

/** The tests behind a row of the audit; whose they are is in the log before the line that tells them. */
export function testsInLines(request: Request): Promise<Response> {
  return inLines(request, TESTS, (call, { from, to, until, by, key, verdict }, onProgress) => {
    const wish: OccasionsWish = { from, to, cutOff: until, by, key, verdict }
    return readOccasionsApart(call, wish, onProgress)
  })
}

/** What waits behind a figure of the audit; whose it is is in the log before the line that tells it. */
export function waitingInLines(request: Request): Promise<Response> {
  return inLines(request, WAITS, (call, { from, to, until, what }, onProgress) =>
    readWaitingApart(call, { from, to, cutOff: until, what }, onProgress),
  )
}
