import type { ProfileDifference, ProfileExample, ProfileSaying, SourceProfile } from '../../intake/index.ts'

/** A source in the list of all: what is set of it, since when, and what came from it. */
export interface SourceInList {
  readonly source: string
  /** The version that holds; null where nobody wrote a profile. */
  readonly profile: { readonly version: number; readonly since: string; readonly says: readonly string[] } | null
  readonly files: number
  readonly rows: number
  /** Rows of it that were held, and how many of them wait. */
  readonly held: number
  readonly waiting: number
  readonly lastReceivedAt: string | null
}

/** One version of a profile, with what it changed of the one before. */
export interface ProfileVersionView {
  readonly version: number
  readonly madeBy: string
  readonly madeAt: string
  readonly reason: string
  readonly differences: readonly ProfileDifference[]
}

/** A profile as its file: what `source set` takes. */
export interface ProfileFile extends SourceProfile {
  readonly source: string
}

export interface FileOfSource {
  readonly fileId: number
  readonly fileName: string
  readonly receivedAt: string
  readonly rows: number
  readonly held: number
  readonly refused: number
}

/** Everything about one source. */
export interface SourceView {
  readonly source: string
  /** Null where nobody wrote a profile: nothing is assumed. */
  readonly version: number | null
  readonly says: readonly ProfileSaying[]
  readonly file: ProfileFile
  readonly examples: readonly ProfileExample[]
  /** Latest first. */
  readonly versions: readonly ProfileVersionView[]
  /** The last ones. */
  readonly files: readonly FileOfSource[]
  readonly waiting: number
  /** What the form shows of the profile before anybody changed it; null for whoever may not change it. */
  readonly unchanged: SourcePreview | null
  readonly mayTrust: boolean
}

/** A profile before it is saved: what it would change, and what it makes of some texts. */
export interface SourcePreview {
  readonly differences: readonly ProfileDifference[]
  readonly examples: readonly ProfileExample[]
  /** What each code of the units stands for; null where for nothing that is followed. */
  readonly codes: readonly { readonly code: string; readonly analyte: string | null }[]
  readonly problems: readonly { readonly field: string; readonly says: string }[]
}

/** A row of the source that waits, read with a profile that is not saved. */
export interface TriedRow {
  readonly fileName: string
  readonly line: number
  readonly reasonNow: string
  /** Null where it could be filed. */
  readonly stays: string | null
  /** Texts that are read as something else. */
  readonly read: readonly { readonly column: string; readonly text: string; readonly as: string }[]
}

/** What a profile would make of the rows of its source that wait. */
export interface TriedProfile {
  readonly waiting: number
  readonly tried: number
  readonly couldBeFiled: number
  /** The first rows. */
  readonly rows: readonly TriedRow[]
}
