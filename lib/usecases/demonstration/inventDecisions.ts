import type { Call, Outcome } from '../call.ts'
import { excludeResult } from '../decisions/excludeResult.ts'
import { recordAttribution } from '../decisions/recordAttribution.ts'
import { recordReview } from '../decisions/recordReview.ts'
import type { FindingView, PatientView } from '../patientViews.ts'
import { type Acting, actOnSome, as } from './actOnSome.ts'

// A few of each, so that a newcomer meets them and the list stays as the cohort makes it.
const REVIEWS = 4
const ATTRIBUTIONS = 2
const EXCLUSIONS = 1

const NOTES = [
  ['contacted', 'Spoke with the patient, who feels well. Blood is taken at the next visit.'],
  ['visit-brought-forward', 'Appointment made; the ward knows.'],
] as const

/** Another cause fit for each measure of organ damage. */
const CAUSES: readonly (readonly [analyte: string, cause: string])[] = [
  ['haemoglobin', 'Iron deficiency: ferritin is low, iron was started.'],
  ['creatinine', 'Dehydration after a week of diarrhoea; fluids given.'],
  ['calcium', 'Calcium and vitamin D tablets in a high dose; stopped.'],
  ['lytic-lesions', 'Old fracture after a fall, known from earlier images.'],
]
const SPURIOUS = 'About ten times the values before it: the laboratory suspects a mixed-up sample.'

function causeFor({ evidence }: FindingView): string | null {
  return CAUSES.find(([analyte]) => evidence.some((one) => one.role === 'current' && one.analyte === analyte))?.[1] ?? null
}

/** The result behind a value that looks like a wrong unit. */
function spurious({ findings, results }: PatientView): number | null {
  const suspect = findings.find(({ cautions }) => cautions.some(({ caution }) => caution === 'unit-suspect'))
  const current = suspect?.evidence.find(({ role }) => role === 'current')
  return results.find(({ analyte, collectedOn }) => analyte === current?.analyte && collectedOn === current.collectedOn)?.resultId ?? null
}

function actsOf(call: Call): readonly Acting[] {
  const [nurse, physician] = [as(call, 'navigator'), as(call, 'physician')]
  return [
    {
      role: 'physician',
      count: EXCLUSIONS,
      act: (view) => {
        const resultId = spurious(view)
        return resultId === null ? null : excludeResult(physician, { patientId: view.patientId, resultId, reason: SPURIOUS })
      },
    },
    {
      role: 'physician',
      count: ATTRIBUTIONS,
      act: ({ patientId, findings: [finding] }) => {
        const cause = finding?.attributable === true ? causeFor(finding) : null
        if (finding === undefined || cause === null) return null
        return recordAttribution(physician, { patientId, rule: finding.rule, key: finding.key, cause })
      },
    },
    {
      role: 'navigator',
      count: REVIEWS,
      act: ({ patientId, findings }, nth) => {
        const [first, ...others] = findings
        if (first === undefined || others.length > 0 || first.window !== 'within-30-days') return null
        const [did, note] = NOTES[nth % NOTES.length] ?? NOTES[0]
        return recordReview(nurse, { patientId, rule: first.rule, key: first.key, did, note, bringBackOn: null })
      },
    },
  ]
}

/** A few decisions of the demonstration's nurse and physician. Answers whom they are about. */
export function inventDecisions(call: Call): Promise<Outcome<ReadonlySet<string>>> {
  return actOnSome(call, actsOf(call), new Set())
}
