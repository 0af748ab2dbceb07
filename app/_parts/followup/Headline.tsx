import { EXCLUSIONS, type Figures } from '../../../lib/followup/index.ts'
import { counted } from '../words.ts'
import { HowWorkedOut } from './HowWorkedOut.tsx'
import { EXCLUSION_WORDS } from './names.ts'
import { percent, percentInterval } from './numbers.ts'

/** What was due and is counted neither for nor against the clinic. */
export function NotCounted({ pending, excluded, leftUnknown }: Pick<Figures, 'pending' | 'excluded' | 'leftUnknown'>) {
  const told = EXCLUSIONS.filter((one) => excluded[one] > 0).map((one) => `${excluded[one]} ${EXCLUSION_WORDS[one]}`)
  const all = [...(pending > 0 ? [`${pending} still within their grace`] : []), ...told]
  return (
    <p className="soft">
      Not counted as due: {all.length === 0 ? 'none' : all.join(', ')}.
      {leftUnknown > 0 && ` ${counted(leftUnknown, 'patient')} left on a day nobody recorded, and nothing of theirs is judged.`}
    </p>
  )
}

/** The figure first: of the tests that were due, so many were done on time. */
export function Headline({ figures }: { readonly figures: Figures }) {
  const { due, onTime, late, missed, proportion, wilson95 } = figures.onTime
  if (proportion === null || wilson95 === null) {
    return (
      <section aria-label="On-time testing">
        <p className="followup-headline">
          <b>No test was due in this period, so there is no share on time.</b>
        </p>
        <NotCounted {...figures} />
      </section>
    )
  }
  return (
    <section aria-label="On-time testing">
      <p className="followup-headline">
        <b>
          {onTime} of {counted(due, 'test')} on time, <span className="followup-share">{percent(proportion)}</span>
        </b>{' '}
        <span className="soft">(95 % interval {percentInterval(wilson95)})</span>
      </p>
      <p>
        {late} late, {missed} missed; {counted(figures.patients, 'patient')}.
      </p>
      <NotCounted {...figures} />
      <HowWorkedOut
        name="on-time"
        numerator={`${onTime} done on time`}
        denominator={`${due} due: ${onTime} on time + ${late} late + ${missed} missed`}
      />
    </section>
  )
}
