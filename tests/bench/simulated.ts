import type { CriterionRule } from '../../bench/study/crossing.ts'
import { kindOf } from '../../bench/study/kinds.ts'
import { SETTINGS } from '../../bench/study/settings.ts'
import { ruleOf, type Simulated } from '../../bench/study/simulate.ts'
import { PD_RULES, STUDIED, type Studied } from '../../bench/study/watched.ts'

/** Nothing said, sample for sample. */
const silent = (said: string) => '-'.repeat(said.length)

/** A simulated patient of course `index`, made up: a rule, what it said, samples every 28 days, and where a relapse truly crossed. */
export function simulated(index: number, rule: Studied, said: string, crossed: { nadir: number; day: number } | null = null): Simulated {
  const { kind } = kindOf(index)
  const own = ruleOf(kind)
  const crossing = (of: CriterionRule) => (crossed !== null && of === own ? { ...crossed, sustained: true } : null)
  const by = (of: Studied) => (of === rule ? said : silent(said))
  return {
    kind,
    every: kindOf(index).every,
    days: [...said].map((_, at) => at * 28),
    crossings: {
      'pd-serum': crossing('pd-serum'),
      'pd-urine': crossing('pd-urine'),
      'pd-light-chain': crossing('pd-light-chain'),
      'light-chain-escape': crossing('light-chain-escape'),
    },
    said: Object.fromEntries(STUDIED.map((of) => [of, by(of)])) as Simulated['said'],
    byLowest: {
      'pd-serum': by('pd-serum'),
      'pd-urine': by('pd-urine'),
      'pd-light-chain': by('pd-light-chain'),
      'light-chain-escape': by('light-chain-escape'),
    },
    times: Object.fromEntries(PD_RULES.map((of) => [of, [...by(of)].map((letter) => (letter === 'u' ? 2 : 0))])) as unknown as Simulated['times'],
    bySetting: SETTINGS.map(() => by('projected-crossing')),
  }
}

/** The first course of a kind. */
export function courseOf(family: Simulated['kind']['family'], name: string): number {
  const index = Array.from({ length: 540 }, (_, at) => at).find((at) => {
    const { kind } = kindOf(at)
    return kind.family === family && kind.name === name
  })
  if (index === undefined) throw new Error(`No course is "${name}".`)
  return index
}
