import type { LookView } from '../../../lib/usecases/index.ts'

/** Where the patient stands, in one sentence to be read aloud. */
export function StandsSentence({ look }: { readonly look: Pick<LookView, 'stands'> }) {
  return <p className="look-stands">{look.stands}</p>
}
