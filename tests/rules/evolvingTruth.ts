import { numberLevel } from '../../lib/rules/criterion/probability.ts'
import { levelFrom, type RiseCriterion } from '../../lib/rules/criterion/rise.ts'
import { type Evolving, judgeEvolving } from '../../lib/rules/evolving.ts'
import { type Decimal, decimalText } from '../../lib/units/index.ts'
import { type Chance, chancesFrom } from '../../seed/chance.ts'
import { noisy, type Told } from './knownTruth.ts'

/** A marker of MGUS or smouldering myeloma whose truth is invented; `cv` of `rule` is what the rule is told. */
export interface PrecursorSetting {
  readonly rule: Pick<Evolving, 'bars' | 'noise' | 'cv'>
  /** Coefficient of variation of the samples. */
  readonly cv: number
  readonly start: readonly [low: number, high: number]
  readonly doublingYears: readonly [low: number, high: number]
  readonly everyDays: number
}

const YEAR = 365.25

// Of nine patients four are stable, two grow from before the first sample on, in two growth begins late, and in one it ends.
function truePath(chance: Chance, { start, doublingYears, everyDays }: PrecursorSetting): number[] {
  const kind = chance.weighted([
    [4, 'stable'],
    [2, 'steady'],
    [2, 'late'],
    [1, 'ends'],
  ] as const)
  const from = chance.between(...start)
  const days = chance.between(2, 10) * YEAR
  const turns = chance.between(0.2, 0.9) * days
  const perDay = Math.LN2 / (chance.between(...doublingYears) * YEAR)
  const grown = (on: number) => ({ stable: 0, steady: on, late: Math.max(0, on - turns), ends: Math.min(on, turns) })[kind]
  return Array.from({ length: Math.floor(days / everyDays) + 1 }, (_, at) => from * Math.exp(perDay * grown(at * everyDays)))
}

/** The criterion of the bar that was told, by the level it asks for above the measured reference. */
function criterionTold({ bars }: PrecursorSetting['rule'], reference: Decimal, level: string | undefined): RiseCriterion {
  const told = bars.find(({ criterion, from }) => {
    const { at, strict } = levelFrom(criterion, reference)
    return (from === null || reference.gte(from)) && `${strict ? '>' : ''}${decimalText(at)} kept` === level
  })
  if (told === undefined) throw new Error(`no bar asks for ${level}`)
  return told.criterion
}

/** Every first finding in its state of many invented patients: what it said, and what was true of the two days it names. The same seed gives the same. */
export function evolvingToldOf(setting: PrecursorSetting, patients: number, seed: number): Told[] {
  const { rule, cv, everyDays } = setting
  const chances = chancesFrom(seed)
  return Array.from({ length: patients }).flatMap(() => {
    const chance = chances.next().value
    const path = truePath(chance, setting)
    const samples = noisy(chance, path, { cv, everyDays, digits: 1 })
    const judge = judgeEvolving({ ...rule, of: { name: 'invented', unit: 'kept', samples } })
    let before: string | null = null
    return samples.flatMap((_, at): Told[] => {
      const judged = judge(at)
      const isNew = judged !== null && judged.state !== before
      before = judged?.state ?? null
      const { probability, referenceOn, level }: Readonly<Record<string, string>> = isNew ? judged.shown().facts : {}
      const reference = samples.findIndex(({ on }) => on === referenceOn)
      const measured = samples[reference]
      if (judged === null || probability === undefined || measured === undefined) return []
      const needed = numberLevel(criterionTold(rule, measured.value.low, level))(path[reference] ?? 0)
      return [{ state: judged.state, probability: Number(probability), isTrue: (path[at] ?? 0) >= needed }]
    })
  })
}
