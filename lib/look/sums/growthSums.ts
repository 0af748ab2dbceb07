import type { Course, Marker, Measurement } from '../../course/index.ts'
import type { DueTest } from '../../plan/index.ts'
import { crossings, type Finding } from '../../rules/index.ts'
import { doublingDays } from '../../statistics/index.ts'
import { addMonths, type Day, daysBetween } from '../../time/index.ts'
import { decimal, decimalText, isExact } from '../../units/index.ts'
import { markerWords, unitAfter } from '../markerWords.ts'
import type { Arithmetic, Step } from './arithmetic.ts'
import { exactStep, num, numberStep } from './steps.ts'

const PLACES = 10
const FEWEST = 3
const LINE = 'least squares of ln(value) on days'

/** The slope of the line through points, by its sums: products over squares of the distances from the mean day. */
function slopeSteps(points: readonly Measurement[], first: Day): { readonly steps: readonly Step[]; readonly slope: Step } {
  const days = points.map(({ on }) => daysBetween(first, on))
  const logs = points.map(({ value }) => Math.log(Number(value.low)))
  const n = points.length
  const [meanDay, meanLog] = [days, logs].map((numbers) => numbers.reduce((sum, one) => sum + one, 0) / n) as [number, number]
  const products = days.reduce((sum, one, at) => sum + (one - meanDay) * ((logs[at] ?? 0) - meanLog), 0)
  const squares = days.reduce((sum, one) => sum + (one - meanDay) ** 2, 0)
  const day = numberStep('Mean day', `(${days.join(' + ')}) / ${n}`, meanDay, PLACES)
  const log = numberStep('Mean of ln(value)', `(${points.map(({ value }) => `ln(${num(value.low)})`).join(' + ')}) / ${n}`, meanLog, PLACES)
  const terms = points.map(({ value }, at) => `(${days[at]} - ${day.result}) x (ln(${num(value.low)}) - ${log.result})`)
  const up = numberStep('Sum of products', terms.join(' + '), products, 6)
  const down = numberStep('Sum of squares', days.map((one) => `(${one} - ${day.result}) ^ 2`).join(' + '), squares, 6)
  const slope = numberStep('Slope a day', `${up.result} / ${down.result}`, Number(up.result) / Number(down.result), PLACES)
  return { steps: [day, log, up, down, slope], slope }
}

const pointsSay = (points: readonly Measurement[], unit: string): string =>
  points.map(({ on, value }) => `${decimalText(value.low)}${unitAfter(unit)} on ${on}`).join('; ')

/** The doubling time of a marker over the exact values of the last 12 months; nothing where it does not rise. */
export function doublingSum({ today }: Course, { name, unit, samples }: Marker<string>): readonly Arithmetic[] {
  const points = samples.filter(({ on, value }) => on > addMonths(today, -12) && isExact(value) && value.low.gt(0))
  const [first] = points
  const days = doublingDays(points.map(({ on, value }) => ({ on, value: Number(value.low) })))
  if (first === undefined || points.length < FEWEST || days === null) return []
  const { steps, slope } = slopeSteps(points, first.on)
  if (Number(slope.result) <= 0) return []
  const doubling = numberStep('Doubling time', `ln(2) / ${slope.result}`, Math.LN2 / Number(slope.result), 0, 'days')
  return [
    {
      id: `doubling-${name}`,
      name: `Doubling time of ${markerWords(name)}`,
      result: `${doubling.result} days`,
      from: [`the ${points.length} values of the last 12 months, days counted from ${first.on}: ${pointsSay(points, unit)}`],
      steps: [...steps, doubling],
      against: null,
      source: `${LINE} (common practice)`,
      tellsAge: false,
    },
  ]
}

/** The day on which a rising line meets the level of the phase, for each crossing ahead. */
export function crossingSums(course: Course, due: readonly DueTest[], found: readonly Finding[]): readonly Arithmetic[] {
  return crossings(course, due, found).flatMap(({ path, projection: { points, meetsOn } }): Arithmetic[] => {
    const [first] = points
    if (first === undefined) return []
    const { steps, slope } = slopeSteps(points, first.on)
    const [day, log] = steps
    const start = numberStep(
      'ln(value) on the first day',
      `${log?.result} - ${slope.result} x ${day?.result}`,
      Number(log?.result) - Number(slope.result) * Number(day?.result),
      8,
    )
    const meets = (Math.log(Number(path.level)) - Number(start.result)) / Number(slope.result)
    const days = numberStep('Days until the line meets it', `(ln(${num(path.level)}) - ${start.result}) / ${slope.result}`, meets, 2, 'days')
    return [
      {
        id: `crossing-${path.name}`,
        name: `Projected crossing of ${markerWords(path.name)}`,
        result: meetsOn,
        from: [
          `days counted from ${first.on}: ${pointsSay(points, path.unit)}`,
          `level ${num(path.level)}${unitAfter(path.unit)}; rounded up to a whole day: ${meetsOn}`,
        ],
        steps: [
          ...steps,
          start,
          days,
          exactStep('Day of the crossing', `days(${first.on}, ${meetsOn})`, decimal(daysBetween(first.on, meetsOn)), 'days'),
        ],
        against: null,
        source: `${LINE}, told where its slope surely rises (ours)`,
        tellsAge: false,
      },
    ]
  })
}
