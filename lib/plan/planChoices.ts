import type { Thresholds } from '../course/index.ts'
import type { PlanChoice, PlanValue, PlanValues } from './choice.ts'
import { DEFAULT_PLAN } from './defaultPlan.ts'
import type { FollowUpPlan, PlanRow } from './plan.ts'
import { RATIO_INTERVALS, THRESHOLD_NUMBERS } from './thresholdChoices.ts'

/** What stands beside a number the clinic has set. */
export const CLINIC_SOURCE = '(this clinic)'
const OURS = '(ours)'

export const everyId = (row: string, step: number): string => `${row}.${step}.every`
export const untilId = (row: string, step: number): string => `${row}.${step}.until`
export const thresholdId = (key: string): string => `threshold.${key}`
export const GRACE_PERCENT = 'grace.percent'
export const GRACE_MOST = 'grace.atMostDays'

const ORDINALS = ['first', 'then', 'later'] as const

/** Rows of few tests name them, for there is another row for the same patients. */
export function rowTitle({ name, groups }: Pick<PlanRow, 'name' | 'groups'>): string {
  const tests = groups.map((group) => (group === 'urine-24h' ? '24-hour urine' : group.replaceAll('-', ' ')))
  return tests.length === 0 || tests.length > 2 ? name : `${name} (${tests.join(', ')})`
}

function intervalsOf(row: PlanRow): PlanChoice[] {
  const { id, steps, source } = row
  const often = { about: rowTitle(row), source, leastDays: 7, kind: 'interval' } as const
  return steps.flatMap(({ every, until }, step): PlanChoice[] => {
    const which = steps.length === 1 ? '' : `${ORDINALS[step] ?? 'later'}, `
    const asked: PlanChoice = {
      ...often,
      id: everyId(id, step),
      asks: `${which}every`,
      usual: every,
      mostMonths: 60,
      why: 'tests within a week say the same, and after 5 years nobody is followed',
    }
    if (until === null) return [asked]
    const why = 'a step shorter than a week is none, and one of more than 10 years need not end'
    return [asked, { ...often, id: untilId(id, step), asks: `${which}until so long after the beginning`, usual: until, mostMonths: 120, why }]
  })
}

function grace(): PlanChoice[] {
  const { percent, atMostDays } = DEFAULT_PLAN.grace
  const common = { about: 'Grace', source: OURS, kind: 'number', least: 0 } as const
  const why = 'with none a test is overdue the day after it is due, and '
  return [
    {
      ...common,
      id: GRACE_PERCENT,
      asks: 'A test may be late by this share of its interval',
      usual: percent,
      unit: '%',
      most: 100,
      why: `${why}more than a whole interval skips one`,
    },
    {
      ...common,
      id: GRACE_MOST,
      asks: 'but by no more than',
      usual: atMostDays,
      unit: 'days',
      most: 90,
      why: `${why}more than 3 months would hide a lost patient`,
    },
  ]
}

function thresholds(): PlanChoice[] {
  const usual = DEFAULT_PLAN.thresholds
  const common = { about: 'Thresholds', source: OURS } as const
  return (Object.keys(usual) as (keyof Thresholds)[]).map((key): PlanChoice => {
    const id = thresholdId(key)
    if (key === 'ratioInterval') {
      const asks = 'In reduced kidney function the kappa/lambda ratio is held against'
      return { ...common, kind: 'word', id, asks, usual: usual[key], words: RATIO_INTERVALS, why: 'these two are published' }
    }
    return { ...common, kind: 'number', id, usual: usual[key], ...THRESHOLD_NUMBERS[key] }
  })
}

/** Every place of the plan a clinic may set: the intervals of each row, the grace, the thresholds. Whom a row is for, its tests and its order stay. */
export const PLAN_CHOICES: readonly PlanChoice[] = [...DEFAULT_PLAN.rows.flatMap(intervalsOf), ...grace(), ...thresholds()]

/** What every place of a plan is set to. */
export function valuesOf({ rows, grace: { percent, atMostDays }, thresholds: set }: FollowUpPlan): PlanValues {
  const steps = rows.flatMap(({ id, steps: of }) =>
    of.flatMap(({ every, until }, step): [string, PlanValue][] => [
      [everyId(id, step), every],
      ...(until === null ? [] : [[untilId(id, step), until] as [string, PlanValue]]),
    ]),
  )
  const named = Object.entries(set).map(([key, value]): [string, PlanValue] => [thresholdId(key), value])
  return Object.fromEntries([...steps, [GRACE_PERCENT, percent], [GRACE_MOST, atMostDays], ...named])
}
