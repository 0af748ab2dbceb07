import type { Figures, PatientAudit, Placed } from '../../lib/followup/index.ts'

const verdictOf = ({ verdict, excluded, daysLate }: Placed): string =>
  verdict === 'excluded' ? `excluded: ${excluded?.replaceAll('-', ' ')}` : verdict === 'late' ? `late by ${daysLate} days` : verdict.replace('-', ' ')

/** The occasions of the worked cohort, those of one patient, day and verdict in one row, as docs/follow-up.md has them. */
export function occasionRows(audits: readonly PatientAudit[]): readonly (readonly string[])[] {
  return audits.flatMap(({ patientId, occasions }) => {
    const rows = new Map<string, [Placed, number]>()
    for (const one of occasions) {
      const key = [one.dueOn, one.graceEndsOn, one.doneOn, verdictOf(one)].join()
      rows.set(key, [one, (rows.get(key)?.[1] ?? 0) + 1])
    }
    const sorted = [...rows.values()].sort(([a], [b]) =>
      `${a.dueOn} ${a.graceEndsOn} ${a.doneOn}` < `${b.dueOn} ${b.graceEndsOn} ${b.doneOn}` ? -1 : 1,
    )
    return sorted.map(([one, tests]) => [patientId, one.dueOn, one.graceEndsOn, String(tests), one.doneOn ?? '-', verdictOf(one)])
  })
}

const fixed = (number: number | null | undefined, places = 3): string => (number === null || number === undefined ? '-' : number.toFixed(places))

/** The figures of the worked cohort by name, as docs/follow-up.md has them in its last column. */
export function figureTexts(figures: Figures): Readonly<Record<string, string>> {
  const { onTime, by, lateness, backlog, daysToReview, daysToRepeat, answered, overturned, coverage, excluded, chart } = figures
  const clinician = (key: string): string => {
    const row = by.clinician.find((one) => one.key === key)
    return `${row?.onTime} of ${row?.due}`
  }
  const february = chart.points.find(({ month }) => month === '2026-02')
  const steps = (time: typeof daysToReview): string =>
    time.curve.steps
      .filter(({ events }) => events > 0)
      .map((step) => `day ${step.time}: ${fixed(step.survival)} (SE ${fixed(step.standardError)})`)
      .join('; ')
  return {
    due: String(onTime.due),
    'on time': `${onTime.onTime}, ${fixed(onTime.proportion)}, Wilson ${fixed(onTime.wilson95?.[0])} to ${fixed(onTime.wilson95?.[1])}`,
    late: String(onTime.late),
    missed: String(onTime.missed),
    excluded: `died ${excluded.died}, plan not in force ${excluded['plan-not-in-force']}`,
    'Dr North': clinician('Dr North'),
    'Dr South': clinician('Dr South'),
    'by phase': by.phase.map(({ key, onTime: done, due }) => `${key} ${done} of ${due}`).join('; '),
    'p-chart, 2026-02': `${fixed(february?.proportion)}, centre ${fixed(february?.centre)}, limits ${fixed(february?.lower)} to ${fixed(february?.upper)}`,
    lateness: `median ${fixed(lateness?.median, 1)}, 90th percentile ${fixed(lateness?.p90, 1)}`,
    backlog: `${backlog.tests} tests of ${backlog.patients} patient, median ${fixed(backlog.ages?.median, 1)} days, 90th percentile ${fixed(backlog.ages?.p90, 1)}`,
    'days to review': `${steps(daysToReview)}; median ${daysToReview.median}, ${daysToReview.open} open`,
    'days to the second sample': `${steps(daysToRepeat)}; median ${daysToRepeat.median}, ${daysToRepeat.open} open`,
    answered: `${answered.count} of ${answered.of}`,
    overturned: `${overturned.count} of ${overturned.of}`,
    coverage: `${coverage?.covered} of ${coverage?.total} days, ${fixed(coverage?.share)}`,
  }
}
