import type { Outcome, TriedPlan } from '../../lib/usecases/index.ts'
import type { Step } from '../_parts/Progress.tsx'
import type { Line } from '../_server/answerInLines.ts'

const BROKEN: Outcome<never> = {
  ok: false,
  kind: 'unavailable',
  reason: 'The connection broke before the answer came. Nothing was changed; try again.',
}

/** What a page says where the answer of an action never came: it may have been done all the same. */
export const UNHEARD: Outcome<never> = {
  ok: false,
  kind: 'unavailable',
  reason: 'The connection broke before the answer came. Load the page again to see whether it was done.',
}

function readLine(text: string): Line<TriedPlan> | null {
  try {
    return JSON.parse(text) as Line<TriedPlan>
  } catch {
    return null
  }
}

/** Sends the form to be tried and listens to how far that is. */
export async function tryPlan(form: FormData, isProposal: boolean, onStep: (step: Step) => void): Promise<Outcome<TriedPlan>> {
  let answer: Outcome<TriedPlan> | null = null
  const hear = (text: string): void => {
    const line = readLine(text)
    if (line?.kind === 'progress') onStep({ says: line.step, done: line.done, of: line.of })
    if (line?.kind === 'answer') answer = line.outcome
  }
  try {
    const response = await fetch(isProposal ? '/plan/try?of=proposal' : '/plan/try', { method: 'POST', body: form })
    const reader = response.body?.pipeThrough(new TextDecoderStream()).getReader()
    let unread = ''
    for (let part = await reader?.read(); part !== undefined && !part.done; part = await reader?.read()) {
      const lines = (unread + part.value).split('\n')
      unread = lines.pop() ?? ''
      lines.forEach(hear)
    }
    return answer ?? BROKEN
  } catch {
    return BROKEN
  }
}
