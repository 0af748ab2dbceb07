import { ours } from '../../models/index.ts'
import type { RuleId } from '../ruleId.ts'
import { BASELINE_OF_LINE } from './published.ts'
import type { RulePage, RuleSection } from './rulePage.ts'

const GRACE = ours('Grace: 25 % of the interval, at most 30 days.')
const NOT_IN = ['a file that was not sent', 'a row that waits in the held queue', 'a laboratory that left one test of the group out']
const ELSEWHERE = [
  'Tests done elsewhere that did not come in.',
  'Appointments made.',
  'Part of a group: it counts as done only when all its tests have a value on one day.',
]

const PAGES = {
  overdue: {
    runsIn: 'recorded',
    windows: [
      { window: 'within-7-days', when: 'late by more than 14 days at an interval up to 42 days; late by a whole interval at a longer one' },
      { window: 'within-30-days', when: 'else' },
    ],
    numbers: [GRACE, ours('Interval up to 42 days: 14 days late at most; a longer one: less than a whole interval.')],
    how: ['The follow-up plan says which tests are due when, with the source of each interval.', 'Late counts from the due day.'],
    cannotSee: ELSEWHERE,
    elseCauses: NOT_IN,
  },
  'due-in-grace': {
    runsIn: 'recorded',
    windows: [{ window: 'next-visit', when: 'always' }],
    numbers: [GRACE],
    how: ['The follow-up plan says which tests are due when, with the source of each interval.'],
    cannotSee: ELSEWHERE,
    elseCauses: NOT_IN,
  },
  'confirmation-overdue': {
    runsIn: 'recorded',
    windows: [
      { window: 'within-7-days', when: 'always, unless what waits is only possible' },
      { window: 'within-30-days', when: 'what waits is only possible' },
    ],
    numbers: [ours('A second sample is expected 28 days after the first.', 'secondSampleDays')],
    how: [],
    cannotSee: ['Why no second sample came: it may have been decided so.', 'A second sample taken elsewhere that did not come in.'],
    elseCauses: ['a second sample that came without a value', 'a second sample that waits in the held queue'],
  },
  'held-results': {
    runsIn: 'every',
    windows: [{ window: 'within-7-days', when: 'always, from the first held row on' }],
    numbers: [],
    how: ['A person files or refuses each row in the queue.'],
    cannotSee: ['What the results say: that is why they wait.', 'Rows about a patient nobody knows: they stand in the queue alone.'],
    elseCauses: ['one wrong unit, code or date in an otherwise sound file'],
  },
  'no-course': {
    runsIn: 'unrecorded',
    windows: [{ window: 'within-30-days', when: 'always' }],
    numbers: [],
    how: ['Until a phase is recorded only the danger rules run, and nothing is due by the plan.'],
    cannotSee: ['Which phase it is: a phase is never guessed from results.'],
    elseCauses: ['a course file that was not sent', 'a row of it that was refused'],
  },
  'no-baseline': {
    runsIn: 'active',
    windows: [{ window: 'within-30-days', when: 'always' }],
    numbers: [BASELINE_OF_LINE, ours('A single marker without its baseline is told after two samples of it.')],
    how: ['Also told when serum M-protein or free light chains alone lack their baseline although samples of them have come since the line began.'],
    cannotSee: ['Lines that have ended.', 'A baseline taken elsewhere that did not come in.'],
    elseCauses: ['a line start recorded on the wrong day', 'a baseline reported in words only', 'a baseline that waits in the held queue'],
  },
  'type-mismatch': {
    runsIn: 'every',
    windows: [{ window: 'next-visit', when: 'always' }],
    numbers: [ours('A therapeutic antibody may show as an IgG kappa band for 6 months after the drug.', 'antibodyMonths')],
    how: [
      'Serum and urine are followed each by itself.',
      'A heavy chain that is lost while the light chain stays can be the only sign of light-chain escape; where no other finding says it, this one does.',
    ],
    cannotSee: ['Bands whose light chain the report does not name.', 'Which of the two records is wrong.'],
    elseCauses: [
      'a diagnosis recorded with the wrong chain',
      'a report that names only what is left over',
      'a therapeutic antibody',
      'a second clone',
      'another patient’s sample',
    ],
  },
  'reviewed-then-corrected': {
    runsIn: 'every',
    windows: [{ window: 'within-7-days', when: 'always' }],
    numbers: [ours('Within 7 days: a patient or a colleague may have been told of what the laboratory has taken back since.')],
    how: [
      'When a new version of a result is filed, the patient is evaluated with the version before and with the new one, all else equal.',
      'A finding that is told only with the version before was taken back; it stays among the past findings as it was told.',
      'Told once somebody had reviewed the finding or recorded another cause for it, until somebody reviews that it was taken back.',
      'Not told any more once a later correction has brought the finding back: it is open again itself.',
    ],
    cannotSee: ['Why the laboratory corrected its report.', 'What was said to the patient, or done, because of the finding.'],
    elseCauses: [
      'a final report that differs from the preliminary one',
      'a cancelled or withdrawn sample',
      'a row of the held queue that was filed as a correction',
    ],
  },
} as const satisfies Partial<Record<RuleId, RulePage>>

export const GAPS_SECTION = {
  title: 'Gaps',
  intro: 'What nobody has done yet. Not told of patients who have left the clinic.',
  causesAreMedical: false,
  pages: PAGES,
} as const satisfies RuleSection
