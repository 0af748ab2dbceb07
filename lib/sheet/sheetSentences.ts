import { SENTENCES } from './sentences.ts'
import type { Sheet } from './sheet.ts'

/** Every sentence of a sheet, the physician's own words among them. Names, labels, days and values in tables are no sentences. */
export function sheetSentences(sheet: Sheet): readonly string[] {
  return [
    ...sheet.intro,
    ...sheet.items.flatMap(({ about, change, good, moves }) => [...about, ...change, ...good, ...moves]),
    ...(sheet.notMeasured.length > 0 ? [SENTENCES.notMeasured] : []),
    ...sheet.notes,
    ...sheet.next,
    ...(sheet.own === null ? [] : [sheet.own]),
    ...sheet.caution,
  ]
}
