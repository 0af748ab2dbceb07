import type { LookView } from '../../../lib/usecases/index.ts'
import { PLACE_OF_NUMBERS } from './HowComputed.tsx'
import { Sums } from './Sum.tsx'

/** Where the patient stands, in one sentence to be read aloud. */
export function StandsSentence({ look }: { readonly look: Pick<LookView, 'stands' | 'sums'> }) {
  return (
    <div className="look">
      <p className="look-stands">{look.stands}</p>
      <details className="look-sums">
        <summary>How its numbers were computed</summary>
        <div id={PLACE_OF_NUMBERS}>
          <Sums sums={look.sums} of={['lowest-confirmed', 'lowest', 'noise', 'doubling', 'crossing', 'waiting']} />
        </div>
      </details>
    </div>
  )
}
