import { type CourseEvent, INTENTS, MODALITIES, PHASES } from '../results/index.ts'
import type { Day } from '../time/index.ts'
import { type Decimal, decimalText } from '../units/index.ts'
import { readNumber } from './numberText.ts'
import type { Problem } from './reason.ts'
import { field, isProblem, type RawRow, wordOf } from './row.ts'
import { problem } from './sentences.ts'

type EventName = CourseEvent['event']
export const COURSE_EVENTS = [
  'diagnosis',
  'phase',
  'line-start',
  'line-end',
  'imaging',
  'marrow',
  'bone-agent',
  'left',
] as const satisfies readonly EventName[]

const USES: Readonly<Record<EventName, readonly string[]>> = {
  diagnosis: ['phase', 'heavy_chain', 'light_chain'],
  phase: ['phase'],
  'line-start': ['line', 'regimen', 'intent'],
  'line-end': ['line', 'regimen', 'intent'],
  imaging: ['modality', 'lytic_lesions', 'focal_lesions_5mm', 'new_lesions', 'growth_percent'],
  marrow: ['plasma_cells_percent', 'abnormalities', 'mrd'],
  'bone-agent': ['regimen'],
  left: ['reason'],
}
const OF_EVERY_EVENT = ['patient_id', 'on', 'event']

/** The first filled column that the event does not use; null where there is none. */
export function unusedColumn(raw: RawRow, event: EventName): string | null {
  return (
    Object.keys(raw.fields).find((column) => !OF_EVERY_EVENT.includes(column) && !USES[event].includes(column) && field(raw, column) !== '') ?? null
  )
}

/** Raised inside this file only, to leave an event with the first problem found in its columns. */
class Unreadable extends Error {
  constructor(readonly found: Problem) {
    super(found.sentence)
  }
}

function sound<Read>(read: Read | Problem): Read {
  if (isProblem(read)) throw new Unreadable(read)
  return read
}

const optional = <Word extends string>(raw: RawRow, column: string, words: readonly Word[]): Word | null => sound(wordOf(raw, column, words))

function required<Read>(column: string, read: Read | null): Read {
  return read ?? sound<Read>(problem('missing-field', { column, text: '' }))
}

function plainNumber(raw: RawRow, column: string, mayBeNegative: boolean): Decimal | null {
  const text = field(raw, column)
  if (text === '') return null
  const read = sound(readNumber(column, text))
  if (read === null || read.comparator !== null) return sound<Decimal>(problem('value-unreadable', { column, text, detail: 'a plain number' }))
  return read.value.lt(0) && !mayBeNegative ? sound<Decimal>(problem('negative', { column, text })) : read.value
}

const GREATEST_COUNT = 9999

function count(raw: RawRow, column: string, least: 0 | 1): number | null {
  const value = plainNumber(raw, column, false)
  if (value === null) return null
  const about = { column, text: field(raw, column), detail: `${least} to ${GREATEST_COUNT}` }
  if (!/^\d+$/.test(decimalText(value)) || value.lt(least) || value.gt(GREATEST_COUNT)) return sound<number>(problem('not-a-whole-number', about))
  return Number(decimalText(value))
}

function percent(raw: RawRow, column: string): Decimal | null {
  const value = plainNumber(raw, column, false)
  return value?.gt(100) === true ? sound<Decimal>(problem('out-of-range', { column, text: field(raw, column), detail: '0 to 100 %' })) : value
}

/** Drug names joined by +, in lower case as INN are written. */
const drugs = (raw: RawRow): readonly string[] => parts(field(raw, 'regimen').toLowerCase().split('+'))
/** Abnormalities joined by a semicolon; the one inside t(4;14) joins nothing. From the end, in one pass: a look ahead at each would be quadratic. */
function abnormalities(raw: RawRow): readonly string[] {
  const text = field(raw, 'abnormalities')
  const words: string[] = []
  let [end, isInside] = [text.length, false]
  for (let at = text.length - 1; at >= 0; at--) {
    const mark = text[at]
    if (mark === ')' || mark === '(') isInside = mark === ')'
    else if (mark === ';' && !isInside) {
      words.push(text.slice(at + 1, end))
      end = at
    }
  }
  return parts([...words, text.slice(0, end)].toReversed())
}
const parts = (words: readonly string[]): readonly string[] => words.map((word) => word.trim()).filter((word) => word !== '')

function eventOf(raw: RawRow, event: EventName, on: Day): CourseEvent {
  switch (event) {
    case 'diagnosis': {
      const [heavyChain, lightChain] = [
        optional(raw, 'heavy_chain', ['G', 'A', 'M', 'D', 'E', 'none']),
        optional(raw, 'light_chain', ['kappa', 'lambda']),
      ]
      return { event, on, phase: required('phase', optional(raw, 'phase', PHASES)), heavyChain, lightChain }
    }
    case 'phase':
      return { event, on, phase: required('phase', optional(raw, 'phase', PHASES)) }
    case 'line-start':
      return { event, on, line: required('line', count(raw, 'line', 1)), regimen: drugs(raw), intent: optional(raw, 'intent', INTENTS) }
    case 'line-end':
      optional(raw, 'intent', INTENTS)
      return { event, on, line: required('line', count(raw, 'line', 1)) }
    case 'imaging': {
      const modality = required('modality', optional(raw, 'modality', MODALITIES))
      const [lyticLesions, focalLesions5mm] = [count(raw, 'lytic_lesions', 0), count(raw, 'focal_lesions_5mm', 0)]
      const [newLesions, growthPercent] = [count(raw, 'new_lesions', 0), plainNumber(raw, 'growth_percent', true)]
      return { event, on, modality, lyticLesions, focalLesions5mm, newLesions, growthPercent }
    }
    case 'marrow': {
      const plasmaCellsPercent = percent(raw, 'plasma_cells_percent')
      return { event, on, plasmaCellsPercent, abnormalities: abnormalities(raw), mrd: optional(raw, 'mrd', ['negative', 'positive']) }
    }
    case 'bone-agent': {
      const regimen = drugs(raw)
      return { event, on, regimen: required('regimen', regimen.length === 0 ? null : regimen) }
    }
    case 'left':
      return { event, on, reason: required('reason', optional(raw, 'reason', ['transferred', 'discharged', 'died'])) }
  }
}

/** The event a row tells of, or the first problem in the columns it uses. */
export function courseEventOf(raw: RawRow, event: EventName, on: Day): CourseEvent | Problem {
  try {
    return eventOf(raw, event, on)
  } catch (error) {
    if (error instanceof Unreadable) return error.found
    throw error
  }
}
