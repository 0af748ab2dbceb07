import { lowest, lowestConfirmed, type Measurement } from '../../lib/course/index.ts'
import { levelFrom, type RiseCriterion } from '../../lib/rules/criterion/rise.ts'
import { judgeRise, type Rising } from '../../lib/rules/criterion/rising.ts'
import { addDays, day } from '../../lib/time/index.ts'
import { decimal, exactly } from '../../lib/units/index.ts'
import { type Chance, chancesFrom } from '../../seed/chance.ts'

/** A marker whose truth is invented, so that every finding can be held against it. */
export interface Setting {
  readonly criterion: RiseCriterion
  /** Coefficient of variation of the samples, and the one the rule is told. */
  readonly cv: number
  readonly toldCv?: number
  readonly start: readonly [low: number, high: number]
  readonly digits: number
  readonly everyDays: number
}

/** One finding on the day it was first made in its state: what it said, and what was true. */
export interface Told {
  readonly state: string
  readonly probability: number
  readonly isTrue: boolean
}

// Half of the patients stay level, a quarter rises slowly, a quarter relapses; most fall first, as under treatment.
function truePath(chance: Chance, { start, everyDays }: Setting): number[] {
  const kind = chance.weighted([
    [2, 'level'],
    [1, 'slow'],
    [1, 'relapse'],
  ] as const)
  const from = chance.between(...start)
  const fallsTo = chance.happens(0.25) ? 1 : chance.between(0.15, 0.75)
  const count = chance.whole(6, 28)
  const fallSamples = chance.whole(2, 5)
  const onset = chance.between(fallSamples, count)
  const monthly = kind === 'slow' ? chance.between(0.01, 0.04) : chance.between(0.08, 0.33)
  return Array.from({ length: count }, (_, at) => {
    if (at < fallSamples) return from * fallsTo ** (at / fallSamples)
    return from * fallsTo * Math.exp(kind === 'level' ? 0 : (monthly * Math.max(at - onset, 0) * everyDays) / 28)
  })
}

/** The path as samples show it: every value off by its own noise, and rounded as a laboratory prints it. */
export function noisy(
  chance: Chance,
  path: readonly number[],
  { cv, digits, everyDays }: Pick<Setting, 'cv' | 'digits' | 'everyDays'>,
): Measurement[] {
  const deviation = Math.sqrt(Math.log1p(cv ** 2))
  return path.map((truth, at) => ({
    on: addDays(day('2020-01-01'), at * everyDays),
    value: exactly(chance.logNormal(truth, deviation).toFixed(digits)),
    printed: null,
    comparator: null,
    words: null,
    laboratory: null,
    method: null,
    results: [],
  }))
}

/** Every first finding of many invented patients, told through the rule's own judgement. The same seed gives the same. */
export function toldOf(setting: Setting, patients: number, seed: number): Told[] {
  const { criterion, cv, toldCv = cv } = setting
  const chances = chancesFrom(seed)
  return Array.from({ length: patients }).flatMap(() => {
    const chance = chances.next().value
    const path = truePath(chance, setting)
    const window = noisy(chance, path, setting)
    const of = { name: 'serum-m-protein', unit: 'g/L', window, lowest: lowest(window), lowestConfirmed: lowestConfirmed(window) }
    const rising: Rising = { of, criterion, noise: null, cv: toldCv, freeLightChains: false, hastens: null }
    const judge = judgeRise(rising)
    let before: string | null = null
    return window.flatMap((_, at): Told[] => {
      const judged = judge(at)
      const isNew = judged !== null && judged.state !== before
      before = judged?.state ?? null
      const probability = isNew ? judged.shown().facts.probability : undefined
      if (judged === null || probability === undefined) return []
      const lowestTruth = Math.min(...path.slice(0, at))
      const level = Number(levelFrom(criterion, decimal(lowestTruth)).at)
      return [{ state: judged.state, probability: Number(probability), isTrue: (path[at] ?? 0) >= level }]
    })
  })
}

/** Among findings said with a probability from `low` to `high`: how many they are, and which share of them is true. */
export function shareTrue(told: readonly Told[], low: number, high: number): { readonly count: number; readonly share: number } {
  const among = told.filter(({ probability }) => probability >= low && probability <= high)
  return { count: among.length, share: among.filter(({ isTrue }) => isTrue).length / among.length }
}
