import type { CohortResultView, ResultView } from '../../../lib/usecases/index.ts'
import { counted } from '../words.ts'
import { DoesNotCount } from './DoesNotCount.tsx'
import { testName } from './names.ts'

/** Values a person took out of everything that is found and drawn. Always in sight, and printed: a reader must know what the rest leaves out. */
export function ExcludedValues({ results }: { readonly results: readonly (ResultView | CohortResultView)[] }) {
  const excluded = results.flatMap((result) => (result.excluded === null ? [] : [{ ...result, excluded: result.excluded }]))
  if (excluded.length === 0) return null
  return (
    <>
      <p>{counted(excluded.length, 'value does not count', 'values do not count')} in anything on this page:</p>
      <ul className="does-not-count">
        {excluded.map((result) => (
          <li key={result.resultId}>
            {testName(result.analyte)} <s className="received">{result.received}</s> of {result.collectedOn}{' '}
            <DoesNotCount excluded={result.excluded} />
          </li>
        ))}
      </ul>
    </>
  )
}
