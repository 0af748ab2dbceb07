import type { Sample } from '../course/index.ts'
import { compareDays, type Day } from '../time/index.ts'
import { decimalText, type Interval } from '../units/index.ts'
import { dayText } from './dayText.ts'
import { SENTENCES } from './sentences.ts'
import type { Sheet, SheetValue } from './sheet.ts'
import type { SheetTest } from './sheetTest.ts'

/** The two ends of a value, as a sheet keeps them. */
export function keptEnds(value: Interval | null): SheetValue['kept'] {
  return value === null ? null : [decimalText(value.low), value.high === null ? null : decimalText(value.high)]
}

const sameEnds = (a: SheetValue['kept'], b: SheetValue['kept']): boolean => JSON.stringify(a) === JSON.stringify(b)

function isCorrected({ results: [own] }: Sample): boolean {
  return own !== undefined && (own.status === 'corrected' || own.version > 1)
}

/** What the last sheet that told a day's value said of it, by day. */
function toldValues(test: SheetTest, earlier: readonly Sheet[]): ReadonlyMap<Day, { readonly sheet: Day; readonly value: SheetValue }> {
  const told = new Map<Day, { sheet: Day; value: SheetValue }>()
  for (const sheet of earlier.toSorted((a, b) => compareDays(a.madeOn, b.madeOn))) {
    for (const item of sheet.items.filter((one) => one.test === test)) {
      for (const value of item.values) told.set(value.on, { sheet: sheet.madeOn, value })
    }
  }
  return told
}

/**
 * What became of values the reader holds on an earlier sheet: corrected, otherwise replaced, or no longer counting. A value nobody was given is not
 * spoken of: that the laboratory corrected it is no news to the reader.
 */
export function earlierSays(test: SheetTest, samples: readonly Sample[], earlier: readonly Sheet[]): readonly string[] {
  return [...toldValues(test, earlier)].flatMap(([on, { sheet, value }]) => {
    const now = samples.find((sample) => sample.on === on)
    const [when, was, day] = [dayText(sheet), value.text, dayText(on)] as const
    if (now === undefined) return [SENTENCES.takenBack(when, was, day)]
    if (sameEnds(keptEnds(now.value), value.kept)) return []
    return [(isCorrected(now) ? SENTENCES.corrected : SENTENCES.changed)(when, was, day)]
  })
}
