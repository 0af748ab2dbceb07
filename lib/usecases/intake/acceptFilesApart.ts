import { askApart, type CallApart, callApart } from '../apart.ts'
import type { Call, Outcome } from '../call.ts'
import type { FileReport } from '../views.ts'
import { refusedIntake } from './acceptFiles.ts'
import type { IntakeOptions, ReceivedFile } from './incoming.ts'

/** What the process apart is told. */
export interface ApartRequest extends CallApart {
  readonly files: readonly ReceivedFile[]
  readonly source: string | null
  readonly dryRun: boolean
}

/**
 * Takes files in like `acceptFiles`, in a process of its own, so that reading and evaluating never hold up a page. Rejects when that process ends
 * without an answer; every file it had committed stays, none is kept by half.
 */
export async function acceptFilesApart(call: Call, files: readonly ReceivedFile[], options: IntakeOptions): Promise<Outcome<readonly FileReport[]>> {
  const refused = await refusedIntake(call, files)
  if (refused !== null) return refused
  const { source, dryRun, onProgress } = options
  const request: ApartRequest = { ...callApart(call), files, source, dryRun }
  return askApart('intakeApart.ts', request, 'Taking the files in ended early. Nothing of an unfinished file was kept.', onProgress)
}
