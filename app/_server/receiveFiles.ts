import 'server-only'
import { acceptFilesApart, type FileReport, type Outcome, refusedUnlessMay } from '../../lib/usecases/index.ts'
import { answerInLines, type Line, refusalInLines } from './answerInLines.ts'
import { readUpload } from './readUpload.ts'
import { FROM_ELSEWHERE, isSameOrigin } from './request.ts'
import { signedIn } from './session.ts'
import { unlessUnavailable } from './unavailable.ts'

/** What the page that sent files hears. */
export type IntakeLine = Line<readonly FileReport[]>

// A file of a million bad rows must not become an answer of a million sentences; the report's own page turns through them all.
const PROBLEMS_SENT = 200

const SAID = {
  broken: 'The files could not be read to the end. Nothing of an unfinished file was filed.',
  unheard: 'Sign in and look under "Files received": what was taken in has its report there.',
}

function shortened(outcome: Outcome<readonly FileReport[]>): Outcome<readonly FileReport[]> {
  if (!outcome.ok) return outcome
  return { ok: true, value: outcome.value.map((report) => ({ ...report, problems: report.problems.slice(0, PROBLEMS_SENT) })) }
}

/** Who sent the files, as the page says; as received where it is spelt in no way a page does. */
function sourceOf(header: string | null): string | null {
  if (header === null || header === '') return null
  try {
    return [...decodeURIComponent(header)].slice(0, 100).join('')
  } catch {
    return header.slice(0, 100)
  }
}

/** Reads what was sent and takes it in, apart from the process that serves pages; answers with lines of JSON as it goes. */
export async function receiveFiles(request: Request): Promise<Response> {
  if (!isSameOrigin(request.headers)) return refusalInLines({ ok: false, kind: 'not-allowed', reason: FROM_ELSEWHERE })
  const person = await signedIn()
  if (person === null) return refusalInLines({ ok: false, kind: 'not-allowed', reason: 'Sign in first.' })
  const allowed = await unlessUnavailable(async () => (await refusedUnlessMay(person.call, 'intake.write', 'upload')) ?? { ok: true, value: null })
  if (!allowed.ok) return refusalInLines(allowed)
  const files = await readUpload(request)
  if (!files.ok) return refusalInLines(files)
  const source = sourceOf(request.headers.get('x-lowmark-source'))
  const dryRun = request.headers.get('x-lowmark-dry-run') === 'yes'

  const { files: spooled, drop } = files.value
  return answerInLines(
    person,
    async (onProgress) => {
      try {
        return shortened(await acceptFilesApart(person.call, spooled, { source, dryRun, onProgress }))
      } finally {
        await drop()
      }
    },
    SAID,
  )
}
