import type { FileReport, Outcome } from '../../lib/usecases/index.ts'
import type { Step } from '../_parts/Progress.tsx'
import type { IntakeLine } from '../_server/receiveFiles.ts'

export interface Sending {
  readonly files: readonly File[]
  readonly source: string
  readonly dryRun: boolean
  readonly onStep: (step: Step) => void
}

function readLine(text: string): IntakeLine | null {
  try {
    return JSON.parse(text) as IntakeLine
  } catch {
    return null
  }
}

const BROKEN: Outcome<never> = {
  ok: false,
  kind: 'unavailable',
  reason: 'The connection broke before the answer came. Look under "Files received": what was taken in has its report there.',
}

/** Sends files as they are and listens to how far their reading is. XMLHttpRequest, because fetch does not tell how much was sent. */
export function sendFiles({ files, source, dryRun, onStep }: Sending): Promise<Outcome<readonly FileReport[]>> {
  return new Promise((resolve) => {
    const request = new XMLHttpRequest()
    let read = 0
    let answer: Outcome<readonly FileReport[]> | null = null
    const listen = (): void => {
      const end = request.responseText.lastIndexOf('\n') + 1
      for (const text of request.responseText.slice(read, end).split('\n')) {
        const line = readLine(text)
        if (line?.kind === 'progress') onStep({ says: line.step, done: line.done, of: line.of })
        if (line?.kind === 'answer') answer = line.outcome
      }
      read = end
    }
    request.upload.onprogress = (event) => onStep({ says: 'Sending', done: event.loaded, of: event.total, in: 'bytes' })
    request.onprogress = listen
    request.onload = () => {
      listen()
      resolve(answer ?? BROKEN)
    }
    request.onerror = () => resolve(BROKEN)
    request.open('POST', '/intake/upload')
    request.setRequestHeader('x-lowmark-files', encodeURIComponent(JSON.stringify(files.map(({ name, size }) => ({ name, size })))))
    request.setRequestHeader('x-lowmark-source', encodeURIComponent(source))
    request.setRequestHeader('x-lowmark-dry-run', dryRun ? 'yes' : 'no')
    request.send(new Blob([...files]))
  })
}
