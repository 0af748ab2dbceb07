import { decimalText } from '../../units/index.ts'
import { methodChanged, unitSuspect, when } from '../cautions.ts'
import { type Crossing, crossings } from '../crossings.ts'
import { evidenceOf, keptText } from '../evidence.ts'
import { ratioOf } from '../excess.ts'
import type { Finding } from '../finding.ts'
import type { FollowUpRule } from '../rule.ts'

function findingOf({ path, projection, due }: Crossing): Finding {
  const { name, unit, samples, level } = path
  const { points, fit, meetsOn } = projection
  const latest = samples.at(-1) ?? points.at(-1)
  if (latest === undefined) throw new RangeError('a projection rests on samples')
  const before = points.filter(({ on }) => on < latest.on)
  return {
    rule: 'projected-crossing',
    state: 'unconfirmed',
    certainty: 'certain',
    window: 'within-30-days',
    since: latest.on,
    endedOn: null,
    organDamage: false,
    cautions: [
      ...when(
        points.some((sample) => methodChanged(sample, latest)),
        'method-changed',
      ),
      ...when(
        points.some((sample, at) => unitSuspect(points[at - 1], sample)),
        'unit-suspect',
      ),
    ],
    evidence: [...before.map((sample) => evidenceOf('reference', name, unit, sample)), evidenceOf('current', name, unit, latest)],
    facts: {
      marker: name,
      value: keptText(latest, unit === '1' ? '' : unit).trim(),
      on: latest.on,
      from: points[0]?.on ?? latest.on,
      count: String(points.length),
      level: `${decimalText(level)} ${unit === '1' ? '' : unit}`.trim(),
      crossesOn: meetsOn,
      doublingDays: String(Math.round(Math.LN2 / fit.slope)),
      dueOn: due.dueOn,
      ...(meetsOn < due.dueOn ? {} : { late: 'yes' }),
    },
    excess: ratioOf(latest.value.low, level),
  }
}

export const projectedCrossing: FollowUpRule = {
  id: 'projected-crossing',
  asks: 'Does a line through at least 3 samples of the last 12 months, rising even at its one-sided 90 % lower bound, meet the threshold of the phase before the next due sample?',
  source: '(ours)',
  check: (course, due, found) =>
    crossings(course, due, found)
      .filter(({ toldFrom }) => toldFrom <= course.today)
      .map(findingOf),
}
