import { beforeAll, describe, expect, test } from 'vitest'
import { chosenInstead } from '../../lib/models/index.ts'
import { DEFAULT_PLAN } from '../../lib/plan/index.ts'
import { RULE_IDS, type RuleId, rulePage, ruleSections, WINDOWS } from '../../lib/rules/index.ts'
import { DRIFT_SECTION } from '../../lib/rules/pages/drift.ts'
import type { RulePage } from '../../lib/rules/pages/rulePage.ts'
import { type Assessment, assess } from '../../lib/standing/index.ts'
import { day } from '../../lib/time/index.ts'
import { inventCohort } from '../../seed/index.ts'
import { throughIntake } from '../seed/throughIntake.ts'

const DRIFT: Readonly<Record<string, RulePage>> = DRIFT_SECTION.pages
const PAGES: readonly (readonly [string, RulePage])[] = [
  ...new Map<string, RulePage>([...RULE_IDS.map((id) => [id, rulePage(id)] as const), ...Object.entries(DRIFT)]),
]

describe.each(PAGES)('the page of %s', (_, page) => {
  test('says where it is blind and what else can cause it, in plain sentences and short phrases', () => {
    expect(page.cannotSee.length).toBeGreaterThan(0)
    expect(page.elseCauses.length).toBeGreaterThan(0)
    for (const sentence of [...page.cannotSee, ...page.how]) expect(sentence).toMatch(/^[A-Z].{3,}[.]$/)
    for (const { says } of page.numbers) expect(says).toMatch(/^\S.{7,}[.]$/)
    for (const cause of page.elseCauses) expect(cause).toMatch(/^[^.;]{5,}$/)
    for (const said of [page.cannotSee, page.elseCauses, page.how]) expect(new Set(said).size).toBe(said.length)
  })

  test('names a publication exactly where it says published', () => {
    for (const { mark, source } of page.numbers) expect(source !== null).toBe(mark === 'published')
  })

  test('lists its windows soonest first', () => {
    const places = page.windows.map(({ window }) => WINDOWS.indexOf(window))
    expect(places.length).toBeGreaterThan(0)
    expect(places).toEqual(places.toSorted((a, b) => a - b))
  })

  test('advises nothing', () => {
    expect(JSON.stringify(page)).not.toMatch(/\b(should|must|recommend|consider|prescribe|administer|transfuse)/i)
  })
})

test('every rule stands in one section, in the order of the list of rules', () => {
  expect(ruleSections().flatMap(({ rules }) => rules)).toEqual([...RULE_IDS])
})

test('a number of the clinic’s choosing names what was chosen in its place', () => {
  const [number] = rulePage('confirmation-overdue').numbers
  if (number === undefined) throw new Error('it has a number')
  expect(chosenInstead(number, DEFAULT_PLAN.thresholds)).toEqual([])
  expect(chosenInstead(number, { ...DEFAULT_PLAN.thresholds, secondSampleDays: 21 })).toEqual(['21 instead of 28'])
  expect(chosenInstead(number, { ...DEFAULT_PLAN.thresholds, kidneyInjuryDays: 7 })).toEqual([])
})

describe('in the invented cohort, whose files show every rule but one', () => {
  const today = day('2026-11-25')
  let all: readonly Assessment[] = []
  beforeAll(() => {
    const { files } = inventCohort({ patients: 400, years: 8, seed: 20_261_125, endsOn: today })
    all = throughIntake(files, today).histories.map((history) => assess(history, DEFAULT_PLAN, today))
  })
  const findingsOf = (id: RuleId) =>
    all.flatMap(({ course, findings, history }) =>
      [...findings, ...history].filter(({ rule }) => rule === id).map((finding) => ({ finding, phase: course.phase?.phase ?? null })),
    )
  const PHASES: Record<RulePage['runsIn'], (phase: string | null) => boolean> = {
    mgus: (phase) => phase === 'mgus',
    precursor: (phase) => phase === 'mgus' || phase === 'smouldering',
    active: (phase) => phase !== null && phase !== 'mgus' && phase !== 'smouldering',
    recorded: (phase) => phase !== null,
    unrecorded: (phase) => phase === null,
    every: () => true,
  }

  // No file brings a review, so no file alone shows what comes after one: tests/usecases/corrections does.
  const SHOWN = RULE_IDS.filter((id) => id !== 'reviewed-then-corrected')

  test.each(SHOWN)('%s finds nothing in another phase or window than its page says', (id) => {
    const { runsIn, windows } = rulePage(id)
    const found = findingsOf(id)
    expect(found.length).toBeGreaterThan(0)
    expect([...new Set(found.map(({ phase }) => phase))].filter((phase) => !PHASES[runsIn](phase))).toEqual([])
    const told = windows.map(({ window }) => window)
    const others = found.filter(
      ({ finding: { window, certainty } }) => !told.includes(window) && !(certainty === 'possible' && window === 'within-30-days'),
    )
    expect(others.map(({ finding: { window, certainty, state } }) => [window, certainty, state])).toEqual([])
  })
})
