import { z } from 'zod'

// The JSON of command-line.md, field for field. Strict: a field too many fails as a field too few does.
const day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/)
const decimalText = z.string().regex(/^-?\d+(\.\d+)?$/)
const window = z.enum(['same-day', 'within-7-days', 'within-30-days', 'next-visit', 'on-schedule'])

export const finding = z.strictObject({
  rule: z.string().min(1),
  state: z.enum(['unconfirmed', 'confirmed', 'met']),
  certainty: z.enum(['certain', 'possible']),
  window,
  since: day,
  cautions: z.array(z.string()),
  evidence: z.array(
    z.strictObject({
      role: z.enum(['reference', 'previous', 'current']),
      analyte: z.string(),
      value: z.string().min(1),
      unit: z.string(),
      comparator: z.enum(['<', '<=', '>', '>=']).nullable(),
      collectedOn: day,
    }),
  ),
  says: z.string().min(10),
  source: z.string().min(3),
})

export const listDocument = z.strictObject({
  asOf: day,
  planVersion: z.string().min(1),
  patients: z.array(
    z.strictObject({
      position: z.int().positive(),
      patientId: z.string().min(1),
      window,
      phase: z.string().min(1),
      care: z.string().nullable(),
      findings: z.array(finding),
      overdue: z.array(z.strictObject({ group: z.string(), dueOn: day, daysLate: z.int().positive() })),
      nextDueOn: day.nullable(),
      why: z.string().min(5),
    }),
  ),
})

const share = {
  due: z.int().nonnegative(),
  onTime: z.int().nonnegative(),
  late: z.int().nonnegative(),
  missed: z.int().nonnegative(),
  proportion: z.number().min(0).max(1).nullable(),
  wilson95: z.tuple([z.number().min(0), z.number().max(1)]).nullable(),
}
const waits = z.strictObject({
  events: z.int().nonnegative(),
  open: z.int().nonnegative(),
  median: z.number().nonnegative().nullable(),
  // The standard error is not defined where nobody is left.
  curve: z.array(z.tuple([z.number().nonnegative(), z.number().min(0).max(1), z.number().nonnegative().nullable()])),
})

export const followUpDocument = z.strictObject({
  from: day,
  to: day,
  onTime: z.strictObject(share),
  groups: z.array(z.strictObject({ key: z.string().min(1), ...share })),
  chart: z.array(
    z.strictObject({
      month: z.string().regex(/^\d{4}-\d{2}$/),
      due: z.int().positive(),
      onTime: z.int().nonnegative(),
      proportion: z.number().min(0).max(1),
      centre: z.number().min(0).max(1),
      lower: z.number().min(0).max(1),
      upper: z.number().min(0).max(1),
      signal: z.boolean(),
    }),
  ),
  daysToReview: waits,
  daysToRepeat: waits,
})

const point = z.strictObject({ value: decimalText, comparator: z.enum(['<', '<=', '>', '>=']).nullable(), unit: z.string(), collectedOn: day })

const marker = z.strictObject({
  unit: z.string(),
  samples: z.int().nonnegative(),
  baseline: point.nullable(),
  lowest: point.nullable(),
  lowestConfirmed: decimalText.nullable(),
  current: point.nullable(),
  changeFromLowest: z.strictObject({
    absolute: decimalText.nullable(),
    percent: z
      .string()
      .regex(/^-?\d+\.\d$/)
      .nullable(),
    why: z.string().nullable(),
  }),
  doublingDays: z.number().nullable(),
})

export const patientDocument = z.strictObject({
  patientId: z.string(),
  phase: z.string(),
  care: z.string().nullable(),
  heavyChain: z.string().nullable(),
  involvedChain: z.enum(['kappa', 'lambda']).nullable(),
  measurableBy: z.array(z.enum(['serum', 'urine', 'light-chain', 'marrow'])),
  markers: z.strictObject({
    'serum-m-protein': marker,
    'urine-m-protein': marker,
    dflc: marker,
    'involved-flc': marker,
    'involved-ratio': marker,
    haemoglobin: marker,
    calcium: marker,
    creatinine: marker,
  }),
  response: z.strictObject({
    category: z.enum(['sCR', 'CR', 'VGPR', 'PR', 'MR', 'SD', 'PD']).nullable(),
    state: z.enum(['unconfirmed', 'confirmed']).nullable(),
    provisional: z.boolean(),
    missing: z.array(z.string()),
  }),
  risk: z.array(
    z.union([
      z.strictObject({
        model: z.string(),
        factors: z.int().nullable(),
        group: z.string().nullable(),
        percent: z.string().nullable(),
        horizon: z.string().nullable(),
      }),
      z.strictObject({
        model: z.string(),
        points: z.int(),
        group: z.string().nullable(),
        percent: z.string().nullable(),
        horizon: z.string().nullable(),
      }),
    ]),
  ),
  findings: z.array(finding),
  history: z.array(finding),
  due: z.array(z.strictObject({ group: z.string(), lastDoneOn: day.nullable(), dueOn: day, graceEndsOn: day, daysLate: z.int().nonnegative() })),
  held: z.int().nonnegative(),
})
