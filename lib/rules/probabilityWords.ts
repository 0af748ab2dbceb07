import type { Finding } from './finding.ts'

/** A probability of two digits in words: "About 9 in 10"; near the ends "About 97 in 100", "More than 99 in 100", "Less than 1 in 100". */
export function probabilityWords(probability: string): string {
  const hundredths = Math.round(Number(probability) * 100)
  if (hundredths >= 100) return 'More than 99 in 100'
  if (hundredths <= 0) return 'Less than 1 in 100'
  return hundredths < 10 || hundredths > 90 ? `About ${hundredths} in 100` : `About ${Math.round(hundredths / 10)} in 10`
}

/** The sentence of a finding's probability; empty where it has none. */
export function probabilitySentence({ facts }: Finding): string {
  const { probability } = facts
  if (probability === undefined) return ''
  return `${probabilityWords(probability)} that the true rise exceeds the criterion.`
}
