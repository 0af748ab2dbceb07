import { hardWordsIn, readingLevel, type Sheet, type SheetTest, sheetOf, sheetSentences } from '../../sheet/index.ts'
import type { Assessment } from '../../standing/index.ts'
import type { Reader, StoredSheet } from '../../store/index.ts'
import type { Day } from '../../time/index.ts'
import { canonicalSha256 } from '../../trail/index.ts'
import type { DraftView } from './views.ts'

/** What a physician asks of a draft. */
export interface DraftWish {
  readonly chosen: readonly SheetTest[]
  /** Own words; empty for none. */
  readonly own: string
  readonly visitOn: Day | null
}

/** The sheet a stored row keeps. */
export function sheetOfStored({ content }: Pick<StoredSheet, 'content'>): Sheet {
  return JSON.parse(content) as Sheet
}

/** SHA-256 of a sheet over its canonical form. */
export function sheetSha256(sheet: Sheet): string {
  return canonicalSha256(sheet)
}

/** The draft these wishes make of a patient as assessed, beside what was released before. */
export function draftOf(reader: Pick<Reader, 'sheetsOf'>, recordIds: readonly string[], assessment: Assessment, wish: DraftWish): DraftView {
  const { chosen, own, visitOn } = wish
  const released = reader.sheetsOf(recordIds)
  const sheet = sheetOf(assessment, { chosen, own: own === '' ? null : own, visitOn, earlier: released.map(sheetOfStored) })
  return {
    sheet,
    digest: sheetSha256(sheet),
    level: readingLevel(sheetSentences(sheet)),
    hardWords: hardWordsIn(own),
    chosen,
    own,
    visitOn,
    afterSheet: released.at(-1)?.id ?? 0,
  }
}
