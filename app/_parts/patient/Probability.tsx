import type { FindingView } from '../../../lib/usecases/index.ts'
import './probability.css'

const PARTS = 10
const PART = 9
const GAP = 3

const boxes = (from: number, to: number): string =>
  Array.from({ length: to - from }, (_, at) => `M${1 + (from + at) * (PART + GAP)} 1h${PART}v${PART}h${-PART}z`).join('')

function number(value: string): string {
  return value === '1.00' ? 'above 0.99' : value === '0.00' ? 'below 0.01' : value
}

/** How probable it is that the true rise meets the criterion: words, number, and ten boxes, as many of them full. */
export function Probability({ probability }: { readonly probability: NonNullable<FindingView['probability']> }) {
  const { words, value } = probability
  const full = Math.round(Number(value) * PARTS)
  return (
    <p className="probability">
      <svg viewBox={`0 0 ${PARTS * (PART + GAP)} ${PART + 2}`} width={PARTS * (PART + GAP)} height={PART + 2} aria-hidden="true">
        <path className="probability-full" d={boxes(0, full)} />
        <path className="probability-empty" d={boxes(full, PARTS)} />
      </svg>
      <b>{words}</b>, probability {number(value)}
      <span className="soft"> that the true rise exceeds the criterion, from the published variation between samples</span>
    </p>
  )
}
