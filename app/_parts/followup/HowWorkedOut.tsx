import { MEASURE_TEXTS, type MeasureName } from '../../../lib/followup/index.ts'

interface Props {
  readonly name: MeasureName
  readonly numerator: string
  readonly denominator: string
}

/** How a number came about: what was counted, of what, and the paragraph that defines it. */
export function HowWorkedOut({ name, numerator, denominator }: Props) {
  const { title, says } = MEASURE_TEXTS[name]
  return (
    <details className="followup-how no-print">
      <summary>
        How was this worked out?<span className="sr-only"> {title}</span>
      </summary>
      <dl>
        <dt>Counted</dt>
        <dd>{numerator}</dd>
        <dt>Of</dt>
        <dd>{denominator}</dd>
      </dl>
      <p>{says}</p>
    </details>
  )
}
