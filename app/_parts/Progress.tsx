import { useId } from 'react'

/** How far a long piece of work is. */
export interface Step {
  readonly says: string
  readonly done: number
  /** 0 where nobody knows yet how much there is. */
  readonly of: number
  /** What is counted, where it is not what `says` names. */
  readonly in?: 'bytes'
}

const megabytes = (bytes: number): string => (bytes / 1_000_000).toFixed(1)

function howFar({ done, of, in: unit }: Step): string {
  const reached = Math.min(done, of)
  if (unit === 'bytes') return `: ${megabytes(reached)} of ${megabytes(of)} MB`
  return of > 1 ? `: ${reached} of ${of}` : ''
}

/** How far a long piece of work is: what is being done, as a bar and as numbers. Stands in what is read out. */
export function Progress({ step }: { readonly step: Step }) {
  const id = useId()
  const { says, done, of } = step
  return (
    <p>
      <label htmlFor={id}>
        {says}
        {howFar(step)}
      </label>
      {of === 0 ? <progress className="progress" id={id} /> : <progress className="progress" id={id} max={of} value={Math.min(done, of)} />}
    </p>
  )
}
