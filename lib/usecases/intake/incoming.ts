import type { FileReport, RowProblem } from '../views.ts'

/** A file as it came in, in memory: its name without a path, and its bytes. */
export interface IncomingFile {
  readonly name: string
  readonly bytes: Uint8Array
}

/** A file as it came in, on the disk of this machine until it is taken in (`openSpool`). Plain data: it crosses between two processes. */
export interface SpooledFile {
  readonly name: string
  readonly path: string
  /** Null for more than 512 MiB: then nothing of it lies at `path`. */
  readonly byteCount: number | null
  /** Of the bytes that were read. */
  readonly sha256: string
}

export type ReceivedFile = IncomingFile | SpooledFile

/** How far long work is. */
export interface Progress {
  readonly step: string
  readonly done: number
  readonly of: number
}

export interface IntakeOptions {
  /** Who sent it, as the person says; null where nobody said. */
  readonly source: string | null
  /** Everything is worked out and reported, nothing is kept. */
  readonly dryRun: boolean
  readonly onProgress?: (progress: Progress) => void
  /** Told every report once all is done, with all held and refused rows of each, however many: more than a report itself holds. */
  readonly onReports?: (reports: readonly FileReport[], problemsOf: (report: FileReport) => Iterable<RowProblem>) => void
}
