/** A file as it came in: its name without a path, and its bytes. */
export interface IncomingFile {
  readonly name: string
  readonly bytes: Uint8Array
}

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
}
