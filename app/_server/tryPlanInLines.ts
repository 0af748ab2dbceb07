import 'server-only'
import { z } from 'zod'
import { type Outcome, type TrialWish, tryPlanApart } from '../../lib/usecases/index.ts'
import { answerInLines, refusalInLines } from './answerInLines.ts'
import { askerInLines, formInLines } from './formInLines.ts'
import { readForm } from './guard.ts'
import { PLAN_FORM, PLAN_VERSION, planWish } from './planForm.ts'

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
  const isProposal = new URL(request.url).searchParams.get('of') === 'proposal'
  const asker = await askerInLines(request, isProposal ? 'plan.publish' : 'plan.propose', 'follow-up plan')
  if (!asker.ok) return refusalInLines(asker)
  const form = await formInLines(request, MOST_BYTES)
  if (!form.ok) return refusalInLines(form)
  const wish = readWish(form.value, isProposal)
  if (!wish.ok) return refusalInLines(wish)
  return answerInLines(asker.value, (onProgress) => tryPlanApart(asker.value.call, wish.value, onProgress), {
    broken: 'The patients could not be evaluated to the end. Nothing was changed; try again.',
    unheard: 'Nothing was changed. Sign in and try again.',
  })
}
