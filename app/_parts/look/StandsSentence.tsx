import type { LookView } from '../../../lib/usecases/index.ts'
import { Sums } from './Sum.tsx'

/** Where the patient stands, in one sentence to be read aloud. */
export function StandsSentence({ look }: { readonly look: Pick<LookView, 'stands' | 'sums'> }) {
  return (
    <div className="look">
      <p className="look-stands">{look.stands}</p>
      <details className="look-sums">
        <summary>How its numbers were computed</summary>
        <Sums sums={look.sums} of={['lowest-confirmed', 'lowest', 'noise', 'doubling', 'crossing', 'waiting']} />
      </details>
    </div>
  )
}
