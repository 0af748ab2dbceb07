import { describe, expect, test } from 'vitest'
import { DEFAULT_PLAN } from '../../lib/plan/index.ts'
import { RULE_IDS, ruleTitle, WINDOWS } from '../../lib/rules/index.ts'
import { hardWordsIn, offersOf, readingLevel, type Sheet, type SheetValue, sheetOf, sheetSentences } from '../../lib/sheet/index.ts'
import { assess } from '../../lib/standing/index.ts'
import { day } from '../../lib/time/index.ts'
import { decimal, decimalText } from '../../lib/units/index.ts'
import { inventCohort } from '../../seed/index.ts'
import { throughIntake } from '../seed/throughIntake.ts'

const endsOn = day('2026-11-25')
const taken = throughIntake(inventCohort({ patients: 150, years: 8, seed: 20_261_126, endsOn }).files, endsOn)

/** Every patient of the invented cohort with every test chosen, on the last day. */
const sheets = taken.histories.map((history) => {
  const assessment = assess(history, DEFAULT_PLAN, endsOn)
  const chosen = offersOf(assessment.course).map(({ test: one }) => one)
  return { history, sheet: sheetOf(assessment, { chosen, own: null, visitOn: day('2026-12-24'), earlier: [] }) }
})
const values = (sheet: Sheet): readonly SheetValue[] => sheet.items.flatMap((item) => item.values)
/** Everything a reader sees but the name and the birth date. */
const shown = ({ who: _who, ...sheet }: Sheet) =>
  [
    ...sheetSentences(sheet as Sheet),
    ...sheet.items.flatMap(({ name, values: rows }) => [name, ...rows.flatMap(({ label, day: on, text }) => [label, on, text])]),
    ...sheet.notMeasured,
    ...sheet.due.flatMap(({ day: on, tests }) => [on, ...tests]),
  ].join('\n')

test('the cohort has sheets of many kinds', () => {
  expect(sheets).toHaveLength(150)
  expect(sheets.filter(({ sheet }) => sheet.items.length > 5).length).toBeGreaterThan(100)
  const texts = sheets.map(({ sheet }) => shown(sheet)).join('\n')
  for (const words of [
    'It went up from',
    'It went down from',
    'It is the same as',
    'too little to measure',
    'none found',
    'of 100 cells',
    'another lab',
  ])
    expect(texts).toContain(words)
})

describe('over the whole invented cohort', () => {
  test('every sentence is within the goal of the reading level, and every sheet is far within it', () => {
    const sentences = new Set(sheets.flatMap(({ sheet }) => sheetSentences(sheet)))
    expect(sentences.size).toBeGreaterThan(100)
    expect([...sentences].filter((sentence) => !readingLevel([sentence]).isWithin)).toEqual([])
    const grades = sheets.map(({ sheet }) => readingLevel(sheetSentences(sheet)).grade ?? 99)
    expect(Math.max(...grades)).toBeLessThanOrEqual(6)
  })

  test('no word of the lists, of a rule or of a window, and no per cent', () => {
    const titles = RULE_IDS.flatMap((rule) => [rule, ruleTitle(rule).toLowerCase()])
    for (const { sheet } of sheets) {
      const text = shown(sheet)
      expect(hardWordsIn(text)).toEqual([])
      expect([...titles, ...WINDOWS].filter((word) => text.toLowerCase().includes(word))).toEqual([])
    }
  })

  test('a change names both numbers, as they stand beside it', () => {
    let changes = 0
    for (const { sheet } of sheets) {
      for (const item of sheet.items) {
        const [now, before] = ['this', 'last'].map((which) => item.values.find((value) => value.which === which)?.text)
        for (const sentence of item.change.filter((one) => /^It went/.test(one))) {
          changes += 1
          expect(sentence).toMatch(/^It went (up|down) from .+ to .+\.$/)
          expect(sentence).toBe(`It went ${sentence.includes('went up') ? 'up' : 'down'} from ${before} to ${now}.`)
        }
      }
    }
    expect(changes).toBeGreaterThan(300)
  })

  test('every number shown is the number a stored result printed, or where units differ the exact number in the unit kept', () => {
    let numbers = 0
    for (const { history, sheet } of sheets) {
      const [printed, kept] = [new Set<string>(), new Set<string>()]
      for (const { value, provenance } of history.results) {
        if (value.kind !== 'number') continue
        printed.add(provenance.valueText.replace(/^[<>]=?\s*/, ''))
        for (const end of [value.printed.low, value.printed.high]) if (end !== null) printed.add(decimalText(end))
        for (const end of [value.kept.low, value.kept.high]) if (end !== null) kept.add(decimalText(end))
      }
      for (const event of history.events)
        if (event.event === 'marrow' && event.plasmaCellsPercent !== null) printed.add(decimalText(event.plasmaCellsPercent))
      const inOneUnit = (on: string) =>
        sheet.items.some((item) => item.change.some((one) => one.includes('more than one unit')) && item.values.some((value) => value.on === on))
      for (const { text, on } of values(sheet)) {
        const number = /\d+(\.\d+)?/.exec(text)?.[0]
        if (number === undefined) continue
        numbers += 1
        expect(printed.has(number) || printed.has(decimalText(decimal(number))) || (inOneUnit(on) && kept.has(number)), `${text} of ${on}`).toBe(true)
      }
    }
    expect(numbers).toBeGreaterThan(2000)
  })

  test('the lowest is not higher than this result or the one before where all are exact and in its time', () => {
    for (const { sheet } of sheets) {
      for (const item of sheet.items) {
        const at = (which: string) => item.values.find((value) => value.which === which)
        const [now, lowest] = [at('this'), at('lowest')]
        if (now?.kept == null || lowest?.kept == null || now.isLimit || lowest.isLimit) continue
        expect(decimal(lowest.kept[0]).lte(decimal(now.kept[0]))).toBe(true)
      }
    }
  })
})
