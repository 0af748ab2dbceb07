import { failureSays } from '../../store/index.ts'
import { askApart, type CallApart, callApart } from '../apart.ts'
import type { Call, Outcome } from '../call.ts'
import type { FileReport } from '../views.ts'
import { acceptFiles, refusedIntake } from './acceptFiles.ts'
import type { IntakeOptions, ReceivedFile } from './incoming.ts'

/** What the process apart is told. */
export interface ApartRequest extends CallApart {
  readonly files: readonly ReceivedFile[]
  readonly source: string | null
  readonly dryRun: boolean
}

/** How the reason begins where taking files in throws, here and in the process apart. */
export const NOT_TAKEN_IN = 'The files could not be taken in'

// Some forty rows: starting a process takes longer than all of their patients.
const FEW_BYTES = 4096

/** The same in this process, with the same answer where it fails. */
async function acceptFew(call: Call, files: readonly ReceivedFile[], options: IntakeOptions): Promise<Outcome<readonly FileReport[]>> {
  try {
    return await acceptFiles(call, files, options)
  } catch (error) {
    return { ok: false, kind: 'unavailable', reason: `${NOT_TAKEN_IN}: ${failureSays(error)}` }
  }
}

const bytesOf = (file: ReceivedFile): number => ('bytes' in file ? file.bytes.length : (file.byteCount ?? Number.POSITIVE_INFINITY))

/**
 * Takes files in like `acceptFiles`, in a process of its own unless they are a few rows, so that reading and evaluating never hold up a page. Rejects when
 * that process ends without an answer; every file it had committed stays, none is kept by half.
 */
export async function acceptFilesApart(call: Call, files: readonly ReceivedFile[], options: IntakeOptions): Promise<Outcome<readonly FileReport[]>> {
  if (files.reduce((sum, file) => sum + bytesOf(file), 0) <= FEW_BYTES) return acceptFew(call, files, options)
  const refused = await refusedIntake(call, files)
  if (refused !== null) return refused
  const { source, dryRun, onProgress } = options
  const request: ApartRequest = { ...callApart(call), files, source, dryRun }
  return askApart('intakeApart.ts', request, 'Taking the files in ended early. Nothing of an unfinished file was kept.', onProgress)
}
