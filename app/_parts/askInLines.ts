import type { Outcome } from '../../lib/usecases/index.ts'
import type { Line } from '../_server/answerInLines.ts'
import type { Step } from './Progress.tsx'

const BROKEN: Outcome<never> = {
  ok: false,
  kind: 'unavailable',
  reason: 'The connection broke before the answer came. Nothing was changed; try again.',
}

function readLine<T>(text: string): Line<T> | null {
  try {
    return JSON.parse(text) as Line<T>
  } catch {
    return null
  }
}

/** Sends a form for long work that changes nothing, listens to how far it is, and brings its answer. */
export async function askInLines<T>(address: string, form: FormData, onStep: (step: Step) => void): Promise<Outcome<T>> {
  let answer: Outcome<T> | null = null
  const hear = (text: string): void => {
    const line = readLine<T>(text)
    if (line?.kind === 'progress') onStep({ says: line.step, done: line.done, of: line.of })
    if (line?.kind === 'answer') answer = line.outcome
  }
  try {
    const response = await fetch(address, { method: 'POST', body: form })
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
