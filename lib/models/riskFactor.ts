import type { Course } from '../course/index.ts'
import type { Day } from '../time/index.ts'
import type { Holds } from '../units/index.ts'
import type { Factor } from './factor.ts'

export type RiskFactorName = 'serum-m-protein' | 'heavy-chain' | 'light-chain-ratio' | 'marrow-plasma-cells'

/** One factor of a model that counts factors, asked of a course as it was known on a day. */
export interface RiskFactor {
  readonly name: RiskFactorName
  /** Its input as a person reads it. */
  readonly input: string
  /** Days on which its input was measured, oldest first; none for what the diagnosis tells. */
  readonly measuredOn: (course: Course) => readonly Day[]
  /** Whether it held by the latest input up to that day; null where there was none. */
  readonly holds: (course: Course, on: Day) => Holds | null
}

/** Factors as they stand today. */
export function factorsToday(course: Course, factors: readonly RiskFactor[]): readonly Factor[] {
  return factors.map(({ input, holds }) => ({ input, holds: holds(course, course.today) }))
}

export const serumDays = ({ markers }: Course): readonly Day[] => markers['serum-m-protein'].samples.map((sample) => sample.on)
export const ratioDays = ({ lightChains }: Course): readonly Day[] => lightChains.map((pair) => pair.on)
export const marrowDays = ({ marrow }: Course): readonly Day[] => marrow.filter(({ percent }) => percent !== null).map((sample) => sample.on)
