import type { Measurement } from '../course/index.ts'
import { methodChanged } from '../rules/index.ts'
import { decimalText, isExact, roundedText } from '../units/index.ts'
import { keptLabel } from './label.ts'
import type { ChartMark } from './marks.ts'

/** "14.2 g/L on 2026-03-01"; words stand without a unit. */
export function valueOn(sample: Measurement, unit: string): string {
  return `${keptLabel(sample)}${sample.words === null ? ` ${unit}` : ''} on ${sample.on}`
}

function change(from: Measurement, to: Measurement, unit: string): string {
  if (!isExact(from.value) || !isExact(to.value)) return ''
  const by = to.value.low.minus(from.value.low)
  if (by.eq(0)) return 'unchanged from'
  const percent = from.value.low.gt(0) ? ` (${roundedText(by.abs().times(100).div(from.value.low), 1)} %)` : ''
  return `${decimalText(by.abs())} ${unit}${percent} ${by.gt(0) ? 'above' : 'below'}`
}

/** Says that two values come from different laboratories or methods; empty where they do not. */
export function changedSentence(reference: Measurement | null, current: Measurement | null): string {
  const changed = reference !== null && current !== null && methodChanged(reference, current)
  return changed ? ' The laboratory or method changed between them, so they may not be comparable.' : ''
}

/** The latest value beside what it is held against. */
export function comparedSentence(name: string, current: Measurement, reference: Measurement | null, words: string, unit: string): string {
  const start = `${name} is ${valueOn(current, unit)}`
  if (reference === null) return `${start}.`
  if (reference.on === current.on) return `${start}, the ${words}.`
  const by = change(reference, current, unit)
  const held = `${words}, ${valueOn(reference, unit)}`
  return `${by === '' ? `${start}; the ${held}.` : `${start}, ${by} the ${held}.`}${changedSentence(reference, current)}`
}

/** What the marks say, in their own words. */
export function marksSentence(marks: readonly ChartMark[], kinds: readonly ChartMark['kind'][]): string {
  const words = marks.filter((mark) => kinds.includes(mark.kind)).map((mark) => mark.label)
  const text = words.join('; ')
  return text === '' ? '' : ` ${text.charAt(0).toUpperCase()}${text.slice(1)}.`
}
