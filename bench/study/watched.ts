import { type Course, traceCourse } from '../../lib/course/index.ts'
import { DEFAULT_PLAN, type DueTest, type FollowUpPlan, testsDue } from '../../lib/plan/index.ts'
import type { History } from '../../lib/results/index.ts'
import * as rules from '../../lib/rules/index.ts'
import { TRUE_CRITERIA } from './crossing.ts'
import { calendarDay } from './historyOf.ts'
import { readByLowest, readFromLowest } from './readOtherwise.ts'
import { SETTINGS } from './settings.ts'

export const PD_RULES = ['pd-serum', 'pd-urine', 'pd-light-chain'] as const
/** The rules whose `confirmed` is held against the lowest confirmed value. */
export const JUDGED_BY_LOWEST = [...PD_RULES, 'light-chain-escape'] as const
export const PROJECTION = 'projected-crossing'
const BY_COURSE = [...JUDGED_BY_LOWEST, 'significant-relapse'] as const
export const STUDIED = [...BY_COURSE, PROJECTION] as const
export type Studied = (typeof STUDIED)[number]

/**
 * What each rule said on each sample day, a letter a sample: `-` nothing, `u` unconfirmed, `c` confirmed, `n` confirmed with the caution
 * `inside-noise`, `m` met.
 */
export type Said = string

export interface Watched {
  readonly said: Readonly<Record<Studied, Said>>
  /** The same where `confirmed` is held against the plain lowest value. */
  readonly byLowest: Readonly<Record<(typeof JUDGED_BY_LOWEST)[number], Said>>
  /** Of each sample with an unconfirmed finding: how many times the least rise, and the reference, it has reached, whichever is less; 0 without one. */
  readonly times: Readonly<Record<(typeof PD_RULES)[number], readonly number[]>>
  /** What `projected-crossing` said under each setting, in the order of SETTINGS. */
  readonly bySetting: readonly Said[]
}

/** The plan Lowmark comes with, but asking for a sample every so many days of every patient with active disease, as the simulated clinic does. */
export function planEvery(days: number): FollowUpPlan {
  const rows = DEFAULT_PLAN.rows.map((row) =>
    row.for.who === 'phase' && row.for.phase === 'active' ? { ...row, steps: [{ every: { days }, until: null }] } : row,
  )
  return { ...DEFAULT_PLAN, rows }
}

function letterOf(rule: string, findings: readonly rules.Finding[]): string {
  const current = findings.filter((finding) => finding.rule === rule && finding.endedOn === null)
  const finding = current.find(({ state }) => state === 'confirmed') ?? current[0]
  if (finding === undefined) return '-'
  return finding.state === 'confirmed' && finding.cautions.includes('inside-noise') ? 'n' : finding.state.charAt(0)
}

/** The largest T at which an unconfirmed rise is T times the absolute minimum and the value T times the reference; a reference of 0 asks for the rise alone. */
function timesOf(rule: (typeof PD_RULES)[number], findings: readonly rules.Finding[]): number {
  const finding = findings.find((found) => found.rule === rule && found.state === 'unconfirmed' && found.endedOn === null)
  if (finding === undefined) return 0
  const shown = (role: string) => Number(finding.evidence.find((evidence) => evidence.role === role)?.value ?? 0)
  const [value, reference] = [shown('current'), shown('reference')]
  const byRise = (value - reference) / TRUE_CRITERIA[rule].amount
  return reference > 0 ? Math.min(byRise, value / reference) : byRise
}

const isRule = (value: unknown): value is rules.FollowUpRule => typeof value === 'object' && value !== null && 'check' in value && 'id' in value
/** Every rule of whichever list the door of the rules has it in; one that asks the course alone takes no notice of the rest. */
const BY_ID = new Map<string, rules.FollowUpRule>(
  Object.values(rules).flatMap((list) => (Array.isArray(list) ? list.filter(isRule).map((rule) => [rule.id, rule] as const) : [])),
)

/** The studied rules Lowmark does not have: without any of them the study tells nothing. */
export const missingRules = (): readonly Studied[] => STUDIED.filter((rule) => !BY_ID.has(rule))

function checkedBy(rule: Studied, course: Course, due: readonly DueTest[], found: readonly rules.Finding[]): readonly rules.Finding[] {
  return BY_ID.get(rule)?.check(course, due, found) ?? []
}

/**
 * What the studied rules say of a patient on each of these sample days, each time as if nothing later existed: the way an assessment goes, without the rules,
 * models and gaps nobody asks for here.
 */
export function watch(history: History, days: readonly number[], every: number): Watched {
  const plan = planEvery(every)
  const said = Object.fromEntries(STUDIED.map((rule) => [rule, ''])) as Record<Studied, Said>
  const byLowest = Object.fromEntries(JUDGED_BY_LOWEST.map((rule) => [rule, ''])) as Record<(typeof JUDGED_BY_LOWEST)[number], Said>
  const bySetting = SETTINGS.map(() => '')
  const times = Object.fromEntries(PD_RULES.map((rule) => [rule, [] as number[]])) as Record<(typeof PD_RULES)[number], number[]>
  for (const since of days) {
    const course = traceCourse(history, calendarDay(since), plan.thresholds)
    const due = testsDue(course, plan, [], [])
    const found = BY_COURSE.flatMap((rule) => checkedBy(rule, course, due, []))
    const findings = [...found, ...checkedBy(PROJECTION, course, due, found)]
    for (const rule of STUDIED) said[rule] += letterOf(rule, findings)
    for (const rule of PD_RULES) times[rule].push(timesOf(rule, findings))
    const other = readByLowest(course)
    for (const rule of JUDGED_BY_LOWEST) {
      // The other reading changes what is confirmed, not what is said at all.
      const silent = said[rule].endsWith('-')
      byLowest[rule] += silent ? '-' : letterOf(rule, checkedBy(rule, other, due, []))
    }
    const origins = { baseline: course, lowest: readFromLowest(course) }
    const loosest = new Map<string, string>()
    SETTINGS.forEach(({ from, samples, months, percent }, at) => {
      const thresholds = { ...course.thresholds, projectionSamples: samples, projectionMonths: months, projectionPercent: percent }
      // What the loosest setting of a grid does not say, no stricter one says: they differ only in when they are silent.
      const silent = loosest.get(`${from} ${months}`) === '-'
      const letter = silent ? '-' : letterOf(PROJECTION, checkedBy(PROJECTION, { ...origins[from], thresholds }, due, found))
      if (!loosest.has(`${from} ${months}`)) loosest.set(`${from} ${months}`, letter)
      bySetting[at] += letter
    })
  }
  return { said, byLowest, times, bySetting }
}
