import type { Course, Mark, Marker, MarkerName, Measurement } from '../../course/index.ts'
import { criterionFor, immunoglobulinLevel, keptText } from '../../rules/index.ts'
import { type Decimal, isExact } from '../../units/index.ts'
import { markerWords, unitAfter } from '../markerWords.ts'
import { lowestConfirmedNow } from '../stands/leadingNow.ts'
import type { Arithmetic, Step } from './arithmetic.ts'
import { exactStep, num, roundedStep } from './steps.ts'

const shown = (sample: Measurement, unit: string): string => keptText(sample, unit === '1' ? '' : unit).trim()

/** Why a level is the lowest confirmed one: the two samples in a row that both reached it; the baseline where only one is there. */
function whyLowestConfirmed({ window, unit, baseline }: Marker<string>, mark: Mark): readonly string[] {
  const before = window.slice(0, -1)
  if (before.length < 2 || baseline === null)
    return [`held against the baseline ${shown(mark.sample, unit)} of ${mark.sample.on}: fewer than two samples stand before`]
  for (let at = 1; at < before.length; at += 1) {
    const [first, second] = [before[at - 1] as Measurement, before[at] as Measurement]
    if (first === mark.sample || second === mark.sample) {
      const higher = first.value.low.gte(second.value.low) ? first : second
      if (higher === mark.sample && higher.value.low.eq(mark.value.low))
        return [
          `lowest confirmed ${shown(mark.sample, unit)}: the two samples in a row ${shown(first, unit)} of ${first.on} and ${shown(second, unit)} of ${second.on} both reached it, and no other two in a row a lower level`,
        ]
    }
  }
  return [`lowest confirmed ${shown(mark.sample, unit)} of ${mark.sample.on}`]
}

function confirmedStep({ window, unit }: Marker<string>, mark: Mark): readonly Step[] {
  const before = window.slice(0, -1)
  for (let at = 1; at < before.length; at += 1) {
    const [first, second] = [before[at - 1] as Measurement, before[at] as Measurement]
    if (!isExact(first.value) || !isExact(second.value)) continue
    const higher = first.value.low.gte(second.value.low) ? first.value.low : second.value.low
    if (higher.eq(mark.value.low))
      return [exactStep('Level both samples reached', `max(${num(first.value.low)}, ${num(second.value.low)})`, higher, unit)]
  }
  return []
}

function levelAgainst(course: Course, { name, unit }: Marker<string>, from: Decimal, current: Decimal): string | null {
  const level = name in course.markers ? criterionFor(course, name as MarkerName, from) : immunoglobulinLevel(course, from)
  if (level === null) return null
  const met = level.strict ? current.gt(level.at) : current.gte(level.at)
  return `progression ${level.strict ? 'above' : 'from'} ${num(level.at)}${unitAfter(unit)}: ${met ? 'met' : 'not met'}`
}

function changed(label: string, current: Decimal, reference: Decimal, unit: string): readonly Step[] {
  const by = current.minus(reference)
  const change = exactStep(label, `${num(current)} - ${num(reference)}`, by, unit)
  if (reference.lte(0)) return [change]
  return [change, roundedStep('In per cent', `100 x ${num(by)} / ${num(reference)}`, by.times(100).div(reference), 1, '%')]
}

type Against = 'lowest' | 'lowest-confirmed'

function changeSum(course: Course, marker: Marker<string>, against: Against): readonly Arithmetic[] {
  const current = marker.window.at(-1)
  const at = marker.window.length - 1
  const mark = against === 'lowest' ? (marker.lowest[at] ?? null) : lowestConfirmedNow(marker)
  if (current === undefined || at < 1 || mark === null) return []
  const { unit, name } = marker
  const words = markerWords(name)
  const what = against === 'lowest' ? 'lowest value' : 'lowest confirmed value'
  const why =
    against === 'lowest'
      ? [`lowest ${shown(mark.sample, unit)} of ${mark.sample.on}: the smallest of the ${at} samples since the baseline of ${marker.baseline?.on}`]
      : whyLowestConfirmed(marker, mark)
  const from = [`${words} ${shown(current, unit)} on ${current.on}`, ...why]
  const base = {
    id: `${against}-${name}`,
    name: `Change of ${words} from its ${what}`,
    from,
    source: 'IMWG 2016 (Kumar, Lancet Oncol 17:e328); lowest confirmed by two samples in a row',
    tellsAge: false,
  }
  if (!isExact(current.value) || !isExact(mark.value)) {
    return [{ ...base, result: 'a range: a value is known only as a limit', steps: [], against: null }]
  }
  const change = changed('Change', current.value.low, mark.value.low, unit)
  const [by, percent] = change
  const confirmed = against === 'lowest' ? [] : confirmedStep(marker, mark)
  const result = `${by?.result}${unitAfter(unit)}${percent === undefined ? ', no per cent of 0' : ` (${percent.result} %)`}`
  return [{ ...base, result, steps: [...confirmed, ...change], against: levelAgainst(course, marker, mark.value.low, current.value.low) }]
}

/** The change of a marker from its lowest confirmed and from its lowest value, with the subtraction, the per cent and the criterion. */
export function changeSums(course: Course, marker: Marker<string>): readonly Arithmetic[] {
  return [...changeSum(course, marker, 'lowest-confirmed'), ...changeSum(course, marker, 'lowest')]
}
