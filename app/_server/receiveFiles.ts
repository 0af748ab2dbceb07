import 'server-only'
import { acceptFilesApart, type FileReport, type Outcome } from '../../lib/usecases/index.ts'
import { answerInLines, type Line, refusalInLines } from './answerInLines.ts'
import { askerInLines } from './formInLines.ts'
import { readUpload } from './readUpload.ts'

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
  const asker = await askerInLines(request, 'intake.write', 'upload')
  if (!asker.ok) return refusalInLines(asker)
  const files = await readUpload(request)
  if (!files.ok) return refusalInLines(files)
  const source = sourceOf(request.headers.get('x-lowmark-source'))
  const dryRun = request.headers.get('x-lowmark-dry-run') === 'yes'

  const { files: spooled, drop } = files.value
  return answerInLines(
    asker.value,
    async (onProgress) => {
      try {
        return shortened(await acceptFilesApart(asker.value.call, spooled, { source, dryRun, onProgress }))
      } finally {
        await drop()
      }
    },
    SAID,
  )
}
