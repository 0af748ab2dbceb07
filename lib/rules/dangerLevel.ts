import type { Course, Measurement } from '../course/index.ts'
import { atLeast, below, decimal, decimalText } from '../units/index.ts'
import { ratioOf } from './excess.ts'
import type { Finding } from './finding.ts'
import { dangerFindings } from './limit.ts'
import type { About } from './runs.ts'

interface Counted {
  readonly name: string
  readonly unit: string
  readonly samples: readonly Measurement[]
}

/** Below these in 10^9/L a count is dangerous at once (CTCAE 5 grade 4). */
export const DANGEROUS_COUNTS = { neutrophils: '0.5', platelets: '25' } as const

/** A value below a level that is dangerous at once: the level in the unit kept. */
export function dangerBelow(course: Course, about: About, of: Counted, level: string): Finding[] {
  const at = decimal(level)
  return dangerFindings(
    {
      about,
      of,
      holds: (sample) => below(sample.value, at),
      tells: (sample) => ({
        window: 'same-day',
        excess: ratioOf(at, sample.value.low),
        facts: { limit: `${decimalText(at)} ${of.unit}` },
      }),
    },
    course.today,
  )
}

/** A value at or above a level that is dangerous at once: the level in the unit kept. */
export function dangerFrom(course: Course, about: About, of: Counted, level: string): Finding[] {
  const at = decimal(level)
  return dangerFindings(
    {
      about,
      of,
      holds: (sample) => atLeast(sample.value, at),
      tells: (sample) => ({
        window: 'same-day',
        excess: ratioOf(sample.value.low, at),
        facts: { limit: `${decimalText(at)} ${of.unit}` },
      }),
    },
    course.today,
  )
}
