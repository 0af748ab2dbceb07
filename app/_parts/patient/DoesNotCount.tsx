import type { CohortResultView, ResultView } from '../../../lib/usecases/index.ts'
import { Typed } from './Typed.tsx'

/** That a value does not count, and who said so, when and why. */
export function DoesNotCount({ excluded: { by, on, reason } }: { readonly excluded: NonNullable<(ResultView | CohortResultView)['excluded']> }) {
  return (
    <>
      does not count: <Typed text={reason} /> by <bdi>{by}</bdi> on {on}
    </>
  )
}
