import { type Course, isActive, type Sample } from '../course/index.ts'
import type { Day } from '../time/index.ts'
import { decimalText, isExact } from '../units/index.ts'
import { changeSays } from './changeSays.ts'
import { dayText } from './dayText.ts'
import { earlierSays, keptEnds } from './earlierSays.ts'
import { MOVES } from './moveWords.ts'
import { readingsOf } from './readings.ts'
import { GOOD, LABELS, SENTENCES } from './sentences.ts'
import type { Sheet, SheetItem, SheetValue } from './sheet.ts'
import type { SheetTest } from './sheetTest.ts'
import { type GoodWay, TEST_WORDS } from './testWords.ts'
import { unitsDiffer, unitWords, valueText } from './valueText.ts'

const KEPT_UNITS: Readonly<Record<SheetTest, string>> = {
  'serum-m-protein': 'g/L',
  'urine-m-protein': 'mg/24 h',
  'involved-light-chain': 'mg/L',
  'kappa-light-chain': 'mg/L',
  'lambda-light-chain': 'mg/L',
  immunoglobulin: 'g/L',
  marrow: '%',
  haemoglobin: 'g/L',
  neutrophils: '10*9/L',
  platelets: '10*9/L',
  creatinine: 'umol/L',
  calcium: 'mmol/L',
}

/** Where a bar ends, for drawing only. */
function drawn({ value }: Sample): number | null {
  return value === null ? null : Number(decimalText(value.high ?? value.low))
}

/** What is normal in the laboratory that printed this result, in its own words and unit; nothing where it printed none, or another unit is shown. */
function rangeSays(good: GoodWay, { results: [own], printed }: Sample, as: 'printed' | 'kept'): readonly string[] {
  if (good === 'lower' || own === undefined || printed === null || as === 'kept') return []
  const unit = unitWords(printed.printedUnit)
  const [low, high] = [own.referenceLow, own.referenceHigh].map((limit) => (limit === null ? null : decimalText(limit.printed)))
  if (low != null && high != null) return [SENTENCES.range(low, high, unit)]
  if (low != null) return [SENTENCES.atLeast(low, unit)]
  return high == null ? [] : [SENTENCES.atMost(high, unit)]
}

function lowestLabel({ phase, line }: Course, from: Day | null, on: Day): string {
  if (phase !== null && isActive(phase.phase) && line !== null) return line.end === null ? LABELS.lowestOfLine : LABELS.lowestOfEndedLine
  return from === null || from === on ? LABELS.lowestSinceThen : LABELS.lowestSince(dayText(from))
}

/** One test of the sheet; null where it has no result. `earlier` are the sheets released before. */
export function itemOf(test: SheetTest, course: Course, earlier: readonly Sheet[]): SheetItem | null {
  const { all, lowest, from } = readingsOf(test, course)
  const now = all.at(-1)
  if (now === undefined) return null
  const before = all.at(-2)
  const { name, about, good, moves } = TEST_WORDS[test]
  const keptUnit = test === 'immunoglobulin' && course.immunoglobulin !== null ? course.immunoglobulin.unit : KEPT_UNITS[test]
  const told = [now, before, lowest].filter((sample) => sample != null)
  const as = unitsDiffer(told) ? 'kept' : 'printed'
  const text = (sample: Sample) => valueText(sample, as, keptUnit)
  const longest = Math.max(...told.map((sample) => drawn(sample) ?? 0))
  const row = (which: SheetValue['which'], label: string, sample: Sample): SheetValue => {
    const at = drawn(sample)
    return {
      which,
      label,
      on: sample.on,
      day: dayText(sample.on),
      text: text(sample),
      kept: keptEnds(sample.value),
      bar: at === null || longest === 0 ? null : Math.round((at / longest) * 100),
      isLimit: sample.value !== null && !isExact(sample.value),
    }
  }
  return {
    test,
    name,
    about,
    values: [
      row('this', LABELS.this, now),
      ...(before === undefined ? [] : [row('last', LABELS.last, before)]),
      ...(lowest === null ? [] : [row('lowest', lowestLabel(course, from, lowest.on), lowest)]),
    ],
    change: [
      ...changeSays(now, before, { now: text(now), before: before === undefined ? '' : text(before) }, good),
      ...(before !== undefined && lowest !== null && lowest.on === now.on ? [SENTENCES.lowestNow] : []),
      ...(as === 'kept' ? [SENTENCES.oneUnit(unitWords(keptUnit))] : []),
      ...earlierSays(test, all, earlier),
    ],
    good: [GOOD[good], ...rangeSays(good, now, as)],
    moves: moves.map((move) => MOVES[move].says),
  }
}
