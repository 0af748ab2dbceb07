import 'server-only'
import { z } from 'zod'
import { type Outcome, refusedUnlessMay, type TrialWish, tryPlanApart } from '../../lib/usecases/index.ts'
import { answerInLines, refusalInLines } from './answerInLines.ts'
import { readForm } from './guard.ts'
import { PLAN_FORM, PLAN_VERSION, planWish } from './planForm.ts'
import { FROM_ELSEWHERE, isSameOrigin } from './request.ts'
import { signedIn } from './session.ts'
import { unlessUnavailable } from './unavailable.ts'

const MOST_BYTES = 64 * 1024
const PROPOSAL_FORM = z.strictObject({ version: PLAN_VERSION, from: z.string().trim().max(20, 'is too long') })

function readWish(form: FormData, isProposal: boolean): Outcome<TrialWish> {
  if (isProposal) {
    const read = readForm(PROPOSAL_FORM, form)
    return read.ok ? { ok: true, value: { kind: 'proposal', ...read.value } } : read
  }
  const read = readForm(PLAN_FORM, form)
  return read.ok ? { ok: true, value: { kind: 'changes', wish: planWish(read.value) } } : read
}

/** Tries numbers (for who may propose), or a waiting proposal (for who may publish); the address says which. Answers with lines of JSON as it goes. */
export async function tryPlanInLines(request: Request): Promise<Response> {
  if (!isSameOrigin(request.headers)) {
    return refusalInLines({ ok: false, kind: 'not-allowed', reason: FROM_ELSEWHERE })
  }
  const person = await signedIn()
  if (person === null) return refusalInLines({ ok: false, kind: 'not-allowed', reason: 'Sign in first.' })
  const isProposal = new URL(request.url).searchParams.get('of') === 'proposal'
  const allowed = await unlessUnavailable(
    async () => (await refusedUnlessMay(person.call, isProposal ? 'plan.publish' : 'plan.propose', 'follow-up plan')) ?? { ok: true, value: null },
  )
  if (!allowed.ok) return refusalInLines(allowed)
  const length = Number(request.headers.get('content-length') ?? Number.NaN)
  if (!(length <= MOST_BYTES)) return refusalInLines({ ok: false, kind: 'invalid', reason: 'More was sent than the form can hold.' })
  const form = await request.formData().catch(() => null)
  if (form === null) return refusalInLines({ ok: false, kind: 'invalid', reason: 'What was sent is no form.' })
  const wish = readWish(form, isProposal)
  if (!wish.ok) return refusalInLines(wish)
  return answerInLines(person, (onProgress) => tryPlanApart(person.call, wish.value, onProgress), {
    broken: 'The patients could not be evaluated to the end. Nothing was changed; try again.',
    unheard: 'Nothing was changed. Sign in and try again.',
  })
}
