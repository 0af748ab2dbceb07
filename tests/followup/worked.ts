import { countPatient, type Figures, figuresOf, noCounts, type PatientAudit, type Period, planChanges } from '../../lib/followup/index.ts'
import { DEFAULT_PLAN, type FollowUpPlan, planOfValues, valuesOf } from '../../lib/plan/index.ts'
import type { History } from '../../lib/results/index.ts'
import { day } from '../../lib/time/index.ts'
import { auditHistory } from '../../lib/usecases/followup/auditCohort.ts'
import { history, type ResultRow } from '../builders/history.ts'
import { blood, immunoglobulins } from '../plan/visits.ts'

/** The period worked out by hand in docs/follow-up.md. */
export const PERIOD: Period = { from: day('2026-01-01'), to: day('2026-06-30'), cutOff: day('2026-07-31') }

/** Version 2 of the plan of that clinic: MGUS that is not of low risk comes every 6 months instead of 12. */
const SECOND: FollowUpPlan = planOfValues(
  { ...valuesOf(DEFAULT_PLAN), 'mgus-other.1.every': { months: 6 } },
  { version: '2', from: day('2026-04-01') },
)
export const PLANS: readonly FollowUpPlan[] = [SECOND]

const visits = (values: Readonly<Record<string, string>>): ResultRow[] => Object.entries(values).flatMap(([on, serum]) => blood(on, serum))
const withoutLightChains = (on: string, serum: string): ResultRow[] => blood(on, serum).filter(([, analyte]) => !analyte.endsWith('-flc'))
const lightChains = (on: string): ResultRow[] => blood(on).filter(([, analyte]) => analyte.endsWith('-flc'))
const maintenance = [{ start: '2025-09-01', regimen: ['lenalidomide'], intent: 'maintenance' as const }]

function reviewOf(on: string) {
  const key = JSON.stringify(['pd-serum', '', 'unconfirmed', 'certain', 'within-30-days', [], []])
  return {
    id: 1,
    at: `${on}T10:00:00.000Z`,
    on: day(on),
    by: 'a nurse',
    text: 'seen',
    kind: 'review',
    rule: 'pd-serum',
    key,
    bringBackOn: day('2026-12-31'),
  } as const
}

/** The six patients, all invented. */
export const PATIENTS: readonly History[] = [
  history({
    id: 'A',
    clinician: 'Dr North',
    diagnosis: ['2025-06-01', 'active', { heavy: 'G', light: 'kappa' }],
    lines: maintenance,
    results: visits({ '2025-08-28': '6', '2025-12-01': '6', '2026-02-20': '6', '2026-05-20': '11.5', '2026-06-17': '11.5' }),
    decisions: [reviewOf('2026-05-25')],
  }),
  history({
    id: 'B',
    clinician: 'Dr South',
    diagnosis: ['2025-06-01', 'active', { heavy: 'G', light: 'kappa' }],
    lines: maintenance,
    results: visits({ '2025-08-25': '8', '2025-11-10': '8', '2026-03-09': '14' }),
  }),
  history({
    id: 'C',
    clinician: 'Dr South',
    diagnosis: ['2025-10-01', 'mgus', { heavy: 'G', light: 'kappa' }],
    results: [...withoutLightChains('2026-04-20', '5'), ...lightChains('2026-05-18')],
  }),
  history({
    id: 'D',
    clinician: 'Dr North',
    diagnosis: ['2025-12-05', 'smouldering', { heavy: 'G', light: 'kappa' }],
    results: visits({ '2025-12-05': '18' }),
    left: ['2026-03-10', 'died'],
  }),
  history({
    id: 'E',
    clinician: 'Dr South',
    diagnosis: ['2024-06-01', 'mgus', { heavy: 'A', light: 'kappa' }],
    results: visits({ '2024-12-01': '5', '2025-08-15': '5', '2026-04-10': '5' }),
  }),
  history({
    id: 'F',
    clinician: 'Dr North',
    diagnosis: ['2025-12-20', 'active', { heavy: 'G', light: 'kappa' }],
    lines: [{ start: '2026-01-05', intent: 'induction' }],
    results: [
      ...visits({
        '2026-01-05': '30',
        '2026-02-02': '20',
        '2026-03-02': '12',
        '2026-03-30': '18',
        '2026-04-27': '18.5',
        '2026-05-25': '18.5',
        '2026-06-22': '18.5',
        '2026-07-20': '18.5',
      }),
      ...immunoglobulins('2026-03-30'),
      ...immunoglobulins('2026-06-22'),
    ],
    decisions: [reviewOf('2026-04-02')],
  }),
]

export function audits(period: Period = PERIOD, plans: readonly FollowUpPlan[] = PLANS): readonly PatientAudit[] {
  return PATIENTS.map((one) => auditHistory(one, plans, period))
}

export function figures(period: Period = PERIOD, plans: readonly FollowUpPlan[] = PLANS): Figures {
  const counts = noCounts()
  for (const audit of audits(period, plans)) countPatient(counts, audit)
  return figuresOf(period, counts, { held: [], intake: new Map() }, planChanges(plans, period))
}
