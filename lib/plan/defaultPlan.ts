import { DEFAULT_THRESHOLDS } from '../course/index.ts'
import { day } from '../time/index.ts'
import type { FollowUpPlan, PlanFor, PlanRow, PlanStep, TestGroup } from './plan.ts'

const BLOOD: readonly TestGroup[] = ['serum-m-protein', 'free-light-chains', 'blood-count', 'chemistry']
const BLOOD_AND_URINE: readonly TestGroup[] = [...BLOOD, 'urine-24h']

const KYLE = 'IMWG 2010 (Kyle, Leukemia 24:1121)'

const always = (every: PlanStep['every']): readonly PlanStep[] => [{ every, until: null }]
const onceThen = (first: number, then: number): readonly PlanStep[] => [
  { every: { months: first }, until: { months: first } },
  ...always({ months: then }),
]

const inPhase = (phase: 'mgus' | 'smouldering' | 'active', more: Partial<Pick<Extract<PlanFor, { who: 'phase' }>, 'care' | 'risk'>>): PlanFor => ({
  who: 'phase',
  phase,
  care: more.care ?? null,
  risk: more.risk ?? null,
})

const ROWS: readonly PlanRow[] = [
  { id: 'mgus-low', name: 'MGUS, low risk', for: inPhase('mgus', { risk: 'low' }), groups: BLOOD, steps: onceThen(6, 24), source: KYLE },
  { id: 'mgus-other', name: 'MGUS, not low risk', for: inPhase('mgus', { risk: 'not-low' }), groups: BLOOD, steps: onceThen(6, 12), source: KYLE },
  {
    id: 'smouldering-low',
    name: 'smouldering, 0 or 1 risk factor',
    for: inPhase('smouldering', { risk: 'fewer-than-2-factors' }),
    groups: BLOOD_AND_URINE,
    steps: [{ every: { months: 3 }, until: { months: 3 } }, { every: { months: 6 }, until: { months: 15 } }, ...always({ months: 12 })],
    source: KYLE,
  },
  {
    id: 'smouldering-high',
    name: 'smouldering, 2 or more risk factors',
    for: inPhase('smouldering', { risk: '2-factors-or-more' }),
    groups: BLOOD_AND_URINE,
    steps: always({ months: 3 }),
    source: '(common practice)',
  },
  {
    id: 'smouldering-imaging',
    name: 'smouldering',
    for: inPhase('smouldering', {}),
    groups: ['imaging'],
    steps: [{ every: { months: 12 }, until: { months: 60 } }],
    source: 'IMWG 2019 (Hillengass, Lancet Oncol 20:e302)',
  },
  {
    id: 'treatment',
    name: 'active, on treatment',
    for: inPhase('active', { care: ['on-treatment'] }),
    groups: BLOOD,
    steps: always({ days: 28 }),
    source: 'each cycle (common practice)',
  },
  {
    id: 'treatment-seldom',
    name: 'active, on treatment',
    for: inPhase('active', { care: ['on-treatment'] }),
    groups: ['urine-24h', 'immunoglobulins'],
    steps: always({ days: 84 }),
    source: '(common practice)',
  },
  {
    id: 'untreated',
    name: 'active, maintenance or off treatment',
    for: inPhase('active', { care: ['maintenance', 'off-treatment'] }),
    groups: BLOOD_AND_URINE,
    steps: always({ days: 84 }),
    source: 'tests of EHA-ESMO 2021; interval (common practice)',
  },
  {
    id: 'unconfirmed',
    name: 'active, unconfirmed finding',
    for: { who: 'unconfirmed-finding' },
    groups: [],
    steps: always({ days: 28 }),
    source: '(common practice)',
  },
  {
    id: 'bone-agent',
    name: 'bone agent recorded',
    for: { who: 'bone-agent', agents: ['zoledronic acid', 'pamidronate', 'pamidronic acid'] },
    groups: ['chemistry'],
    steps: always({ days: 28 }),
    source: 'ASCO 2018: creatinine before each dose',
  },
]

/** The plan Lowmark comes with (clinical.md 5), followed from before any course it traces. Grace: a quarter of the interval, at most 30 days (ours). */
export const DEFAULT_PLAN: FollowUpPlan = {
  version: '1',
  from: day('1970-01-01'),
  rows: ROWS,
  grace: { percent: 25, atMostDays: 30 },
  thresholds: DEFAULT_THRESHOLDS,
}
