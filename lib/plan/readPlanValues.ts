import { z } from 'zod'
import { type Day, day } from '../time/index.ts'
import type { PlanChoice, PlanValue, PlanValues } from './choice.ts'
import { DEFAULT_PLAN } from './defaultPlan.ts'
import { intervalText, plusInterval } from './interval.ts'
import type { Interval, PlanRow } from './plan.ts'
import { everyId, PLAN_CHOICES, untilId } from './planChoices.ts'

/** What is wrong with one place of a plan. */
export interface PlanProblem {
  readonly id: string
  readonly says: string
}

export type ReadPlanValues =
  | { readonly ok: true; readonly values: PlanValues }
  | { readonly ok: false; readonly problems: readonly [PlanProblem, ...PlanProblem[]] }

const DAYS_A_MONTH = 30.4375

function schemaOf(choice: PlanChoice): z.ZodType<PlanValue> {
  if (choice.kind === 'word') return z.literal(Object.keys(choice.words), 'is none of the choices')
  if (choice.kind === 'number') {
    const { least, most, unit, why } = choice
    const bounds = `must be from ${least} to ${most} ${unit}: ${why}`
    return z.number('is not a whole number').int('is not a whole number').min(least, bounds).max(most, bounds)
  }
  const { leastDays, mostMonths, why } = choice
  const bounds = `must be from ${leastDays} days to ${mostMonths} months: ${why}`
  const within = (interval: Interval): boolean =>
    'days' in interval
      ? interval.days >= leastDays && interval.days <= Math.floor(mostMonths * DAYS_A_MONTH)
      : interval.months >= 1 && interval.months <= mostMonths
  const either = [z.strictObject({ days: z.number().int() }), z.strictObject({ months: z.number().int() })] as const
  return z.union(either, 'is not a whole number of days or months').refine(within, bounds)
}

const SCHEMAS: ReadonlyMap<string, { readonly choice: PlanChoice; readonly schema: z.ZodType<PlanValue> }> = new Map(
  PLAN_CHOICES.map((choice) => [choice.id, { choice, schema: schemaOf(choice) }]),
)

// Any day will do to hold months and days against each other: the bounds are wide, and a day more or less decides nothing.
const SOME_DAY = day('2001-01-01')

/** A step that ends must have room for its own first test after the step before it. */
function stepProblems(row: PlanRow, values: PlanValues): PlanProblem[] {
  const problems: PlanProblem[] = []
  let begins: Day = SOME_DAY
  for (const step of row.steps.keys()) {
    const every = values[everyId(row.id, step)] as Interval | undefined
    const until = values[untilId(row.id, step)] as Interval | undefined
    if (every === undefined || until === undefined) continue
    const ends = plusInterval(SOME_DAY, until)
    if (plusInterval(begins, every) > ends) {
      const says = `ends before its first test: every ${intervalText(every)} does not fit before ${intervalText(until)} after the beginning`
      problems.push({ id: untilId(row.id, step), says })
    }
    begins = ends
  }
  return problems
}

/**
 * Reads what a plan is to be set to: whole numbers within their bounds, in every place at once, so that a person hears everything that is wrong and
 * not the first of it. A place that is not mentioned stays as Lowmark comes: it may be younger than the version that is read.
 */
export function readPlanValues(given: Readonly<Record<string, unknown>>): ReadPlanValues {
  const unknown = Object.keys(given).filter((id) => !SCHEMAS.has(id))
  const problems: PlanProblem[] = unknown.map((id) => ({ id, says: 'is no place of the plan' }))
  const values: Record<string, PlanValue> = {}
  for (const [id, { choice, schema }] of SCHEMAS) {
    if (!Object.hasOwn(given, id)) {
      values[id] = choice.usual
      continue
    }
    const read = schema.safeParse(given[id])
    if (read.success) values[id] = read.data
    else problems.push({ id, says: read.error.issues[0]?.message ?? 'cannot be read' })
  }
  problems.push(...DEFAULT_PLAN.rows.flatMap((row) => stepProblems(row, values)))
  const [first, ...others] = problems
  return first === undefined ? { ok: true, values } : { ok: false, problems: [first, ...others] }
}
