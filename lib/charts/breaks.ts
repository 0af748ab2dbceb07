import type { Measurement } from '../course/index.ts'
import type { SeriesBreak } from './chart.ts'

const differ = (before: string | null, now: string | null): boolean => before !== null && now !== null && before !== now

/**
 * Where a series breaks: the first sample of another laboratory or method than the last one known before it. Samples that name none break nothing.
 * Oldest first.
 */
export function breaksOf(samples: readonly Measurement[]): readonly SeriesBreak[] {
  const breaks: SeriesBreak[] = []
  let [laboratory, method]: [string | null, string | null] = [null, null]
  for (const sample of samples) {
    const [other, otherwise] = [differ(laboratory, sample.laboratory), differ(method, sample.method)]
    const words = `${[...(other ? ['laboratory'] : []), ...(otherwise ? ['method'] : [])].join(' and ')} changed`
    const says = otherwise ? `${words} (method: ${method}, then ${sample.method})` : words
    if (other || otherwise) breaks.push({ on: sample.on, words, says })
    laboratory = sample.laboratory ?? laboratory
    method = sample.method ?? method
  }
  return breaks
}
