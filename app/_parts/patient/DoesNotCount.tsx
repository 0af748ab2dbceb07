import type { ResultView } from '../../../lib/usecases/index.ts'

/** That a value does not count, and who said so, when and why. */
export function DoesNotCount({ excluded: { by, on, reason } }: { readonly excluded: NonNullable<ResultView['excluded']> }) {
  return (
    <>
      does not count: <q className="typed">{reason}</q> by <bdi>{by}</bdi> on {on}
    </>
  )
}
