/** The measures of the audit by name, in the order in which they are told. */
export const MEASURES = [
  'on-time',
  'lateness',
  'backlog',
  'to-review',
  'to-second',
  'answered',
  'overturned',
  'coverage',
  'held',
  'intake-delay',
  'other-plan',
] as const
export type MeasureName = (typeof MEASURES)[number]

/** What a measure counts, word for word as docs/follow-up.md has it; tests/house holds the two together. */
export interface MeasureText {
  readonly title: string
  readonly says: string
}

/** One paragraph for each measure: numerator, denominator, exclusions, and the plan that applied. */
export const MEASURE_TEXTS: Readonly<Record<MeasureName, MeasureText>> = {
  'on-time': {
    title: 'On-time testing',
    says:
      'Of the occasions due in the period, those done on time. Numerator: on time. Denominator: due = on time + late + missed. Excluded, and ' +
      'counted beside: pending (not done, and its grace ran still on the day of the cut-off), died, transferred, discharged, and plan not in ' +
      'force. Plan: the version in force on the due day. For the whole clinic, for each test group, and by month of the due day, phase, care, ' +
      'risk as the plan asks for it, clinician, and laboratory (of the sample that did it, else of the one before), as they were on the due day. ' +
      'Interval: Wilson. Chart: monthly p-chart, limits p ± 3 sqrt(p(1 - p)/n) with p over all months (NIST/SEMATECH e-Handbook, 6.3.3.2); where ' +
      "the months vary more than chance alone would make them, Laney's sigma z says how much, and wider limits are drawn besides.",
  },
  lateness: {
    title: 'Lateness',
    says:
      'Days from the due day to the sample, of the occasions that were done late: median and 90th percentile. Denominator: those done late. ' +
      'Excluded: what was not done; its age is in the backlog. Plan: the version in force on the due day.',
  },
  backlog: {
    title: 'Overdue backlog',
    says:
      'What the list has past its grace at the end of the last day of the period, or of the cut-off where that comes first: tests, patients, and ' +
      'days since the due day. Excluded: nobody who was followed on that day. Plan: the version in force on that day.',
  },
  'to-review': {
    title: 'Days to review',
    says:
      'From the sample that first showed a finding to the first review of it, or to another cause recorded for it. Of findings that results ' +
      "raised in the period in a window of 30 days or sooner; gaps are none, no result raises them. Kaplan-Meier with Greenwood's standard error, " +
      'log-log interval, and the median with its interval. Censored: on the day of the cut-off, of leaving the clinic, or of the sample that no ' +
      'longer showed it. The days include those until the result came in. Plan: its thresholds as in force on the day the finding was told last.',
  },
  'to-second': {
    title: 'Days to the second sample',
    says:
      'From the first sample of a finding of which a second is awaited (progression, defining events, relapse from complete response, light- ' +
      'chain escape) to the next sample of the same marker. Censored: at the cut-off, or on the day of leaving. Otherwise, and the plan, as for ' +
      'days to review.',
  },
  answered: {
    title: 'Findings answered',
    says:
      'Of the findings of days to review, those that were ever answered while they lasted: numerator answered, denominator found. A handover ' +
      'answers nothing. Excluded: none.',
  },
  overturned: {
    title: 'Findings overturned',
    says:
      'Of the findings of days to review, those for which another cause was recorded, whose value was excluded as spurious, or which a correction ' +
      'took back; told apart.',
  },
  coverage: {
    title: 'Coverage',
    says:
      'Of the days on which patients were followed with a phase recorded, those on which nothing was past its grace. Days of one person go ' +
      'together: the interval divides them by a design effect, and is left out below 20 people or 10 effective days. Excluded: days before a ' +
      'phase is recorded and from the day of leaving on. Plan: the version in force on each day.',
  },
  held: {
    title: 'Held rows',
    says:
      'Of rows that came into the held queue in the period: how many, how many wait still, and how long until somebody decided (Kaplan-Meier, ' +
      'those that wait censored). No plan applies.',
  },
  'intake-delay': {
    title: 'Intake delay',
    says:
      'Days from collection to the arrival of the file or message that first brought a result, of results collected in the period: median and ' +
      '90th percentile. Arrival is a day of the clinic. The time a row waited in the held queue is counted there, not here.',
  },
  'other-plan': {
    title: 'Another plan',
    says:
      'The same period as if one version of the plan had been in force all along: how many more tests would have been due, and how many of them ' +
      'late or missed, with the samples as they were taken. Nobody knows which samples another plan would have brought.',
  },
}
