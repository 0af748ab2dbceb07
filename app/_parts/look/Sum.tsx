import type { LookView } from '../../../lib/usecases/index.ts'

import { placeOfSum } from './HowComputed.tsx'

type Arithmetic = LookView['sums'][number]

function Steps({ steps }: Pick<Arithmetic, 'steps'>) {
  if (steps.length === 0) return null
  return (
    <ol className="sum-steps">
      {steps.map(({ label, put, result, unit, places }) => (
        <li key={label}>
          {label}: <span className="sum-put">{put}</span> {places === null ? '=' : 'rounds to'}{' '}
          <b>
            {result}
            {unit === '' ? '' : ` ${unit}`}
          </b>
        </li>
      ))}
    </ol>
  )
}

/** How one number came about: closed until somebody asks, by mouse or keyboard; printed where it is open. */
export function Sum({ sum }: { readonly sum: Arithmetic }) {
  const { id, name, result, from, steps, against, source } = sum
  return (
    <details className="sum" id={`sum-${id}`}>
      <summary>
        How computed<span className="sum-name">: {name}</span> <span className="sum-result">{result}</span>
      </summary>
      <ul className="sum-from" id={placeOfSum(id)}>
        {from.map((one) => (
          <li key={one}>{one}</li>
        ))}
      </ul>
      <Steps steps={steps} />
      {against !== null && <p>Held against: {against}</p>}
      <p className="small soft">Source: {source}</p>
    </details>
  )
}

/** The sums whose names begin with one of these, in their order. */
export function Sums({ sums, of }: { readonly sums: readonly Arithmetic[]; readonly of: readonly string[] }) {
  return sums.filter(({ id }) => of.some((begin) => id === begin || id.startsWith(`${begin}-`))).map((sum) => <Sum key={sum.id} sum={sum} />)
}
