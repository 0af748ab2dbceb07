import { MAINTAINED, MGUS, ON_TREATMENT, SMOULDERING_CLOSE } from './bases.ts'
import type { Scenario } from './scenario.ts'

/** Courses that were left waiting (clinical.md 3.5). */
export const GAP_SCENARIOS: readonly Scenario[] = [
  { name: 'overdue on treatment', per400: 3, base: ON_TREATMENT, visits: [{ daysAgo: 40 }] },
  { name: 'overdue on treatment, long', per400: 1, base: ON_TREATMENT, visits: [{ daysAgo: 55 }] },
  { name: 'overdue on maintenance', per400: 4, base: MAINTAINED, visits: [{ daysAgo: 126 }] },
  { name: 'overdue MGUS', per400: 6, base: MGUS, visits: [{ daysAgo: 630 }, { daysAgo: 441 }] },
  { name: 'overdue smouldering', per400: 3, base: SMOULDERING_CLOSE, visits: [{ daysAgo: 148 }] },
  { name: 'overdue smouldering by a whole interval', per400: 1, base: SMOULDERING_CLOSE, visits: [{ daysAgo: 201 }] },
  { name: 'due-in-grace', per400: 3, base: ON_TREATMENT, visits: [{ daysAgo: 32 }] },
  {
    name: 'confirmation-overdue',
    per400: 1,
    base: MAINTAINED,
    visits: [{ daysAgo: 37, changes: { 'serum-m-protein': (truth) => truth + 7 } }],
  },
  { name: 'held-results', per400: 1, base: MAINTAINED, visits: [{ daysAgo: 15 }], heldRows: true },
  { name: 'no-course', per400: 2, base: MGUS, visits: [{ daysAgo: 30 }], noCourse: true },
  {
    name: 'no-baseline',
    per400: 1,
    base: MAINTAINED,
    visits: [{ daysAgo: 92 }, { daysAgo: 9 }],
    course: [{ on: -22, event: 'line-start', line: '20', regimen: 'carfilzomib+dexamethasone', intent: 'relapse' }],
  },
  { name: 'type-mismatch', per400: 1, base: MAINTAINED, visits: [{ daysAgo: 13, changes: { 'serum-immunofixation': 'IgG lambda' } }] },
]
