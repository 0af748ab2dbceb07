import type { OnTimePicture } from '../../../../lib/charts/index.ts'
import { Legend } from './Legend.tsx'
import { DIAMOND, dot } from './signPaths.ts'

const diamond = (className: string) => (
  <g className={className}>
    <path d={DIAMOND} />
  </g>
)

/** How to read the p-chart: what occurs in it. */
export function OnTimeLegend({ picture: { points, wide, months }, of }: { readonly picture: OnTimePicture; readonly of: string }) {
  const widened = wide.low.length + wide.high.length > 0
  const signals = points.filter(({ signal }) => signal !== null)
  const month = {
    words: 'share of a month; the stroke is its 95 % interval (Wilson)',
    drawn: (
      <>
        <path className="audit-whisker" d="M0 -8V8" />
        <path className="audit-dots" d={dot(0, 0)} />
      </>
    ),
  }
  const limits = {
    words: widened ? 'within the limits of chance alone' : 'within the limits of the month',
    drawn: (
      <>
        <path className="audit-within" d="M-12 -6H12V6H-12z" />
        <path className="audit-limit" d="M-12 -6H12M-12 6H12" />
      </>
    ),
  }
  const change = {
    words: 'here the plan was changed',
    drawn: (
      <g className="audit-change">
        <line x1={0} x2={0} y1={-9} y2={0} />
        <path d="M0 0l-5 8h10z" />
      </g>
    ),
  }
  return (
    <Legend
      of={of}
      signs={[
        month,
        signals.some(({ standsOut }) => standsOut)
          ? { words: widened ? 'beyond the wider limits too' : 'beyond its limit', drawn: diamond('audit-signal') }
          : null,
        signals.some(({ standsOut }) => !standsOut)
          ? { words: 'beyond the limits of chance alone', drawn: diamond('audit-signal audit-signal-within') }
          : null,
        limits,
        widened ? { words: "wider limits (Laney's p')", drawn: <path className="audit-wide-limit" d="M-12 0H12" /> } : null,
        { words: 'share of all months', drawn: <path className="audit-centre" d="M-12 0H12" /> },
        months.changes.length > 0 ? change : null,
      ]}
    />
  )
}
