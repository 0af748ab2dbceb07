import fc from 'fast-check'
import type { Placed } from '../../lib/review/index.ts'
import { type Finding, RULE_IDS, STATES, WINDOWS } from '../../lib/rules/index.ts'
import { addDays, type Day, day } from '../../lib/time/index.ts'

/** A finding of which only what the order asks for matters. */
export function finding(of: Partial<Finding>): Finding {
  return {
    rule: 'pd-serum',
    state: 'confirmed',
    certainty: 'certain',
    window: 'within-7-days',
    since: day('2024-03-04'),
    endedOn: null,
    cautions: [],
    evidence: [],
    facts: {},
    excess: 1,
    organDamage: false,
    ...of,
  }
}

/** A patient of the list. */
export function placed(id: string, findings: readonly Finding[], dueOn: readonly string[] = []): Placed {
  return { course: { patient: { id } }, open: findings, due: dueOn.map((on) => ({ group: 'chemistry', dueOn: day(on) })) }
}

const someDay: fc.Arbitrary<Day> = fc.integer({ min: 0, max: 3 }).map((days) => addDays(day('2024-01-01'), days))

// Few values each, so that ties are common and every later column decides sometimes.
export const someFinding: fc.Arbitrary<Finding> = fc
  .record({
    rule: fc.constantFrom(...RULE_IDS),
    window: fc.constantFrom(...WINDOWS.filter((window) => window !== 'on-schedule').slice(0, 2)),
    state: fc.constantFrom(...STATES),
    organDamage: fc.boolean(),
    since: someDay,
    excess: fc.constantFrom(1, 1.2, 1.0000000000000002, 30, 0.5),
  })
  .map(finding)

const character = fc.constantFrom('A', 'a', '1', '-', 'é', '\u{FFFD}', '\u{1F600}')
const id = fc.array(character, { minLength: 1, maxLength: 3 }).map((chars) => chars.join(''))

export const somePatients: fc.Arbitrary<readonly Placed[]> = fc
  .uniqueArray(
    fc.record({
      id,
      findings: fc.array(someFinding, { maxLength: 1 }),
      due: fc.array(someDay, { maxLength: 2 }),
    }),
    { selector: (patient) => patient.id, maxLength: 25 },
  )
  .map((patients) => patients.map(({ id: name, findings, due }) => placed(name, findings, due)))
