import { useId } from 'react'

export interface Step {
  readonly says: string
  readonly done: number
  /** 0 where nobody knows yet how much there is. */
  readonly of: number
}

/** How far a long piece of work is: what is being done, as a bar and as numbers. */
export function Progress({ step: { says, done, of } }: { readonly step: Step }) {
  const id = useId()
  return (
    <p className="progress-step">
      <label htmlFor={id}>
        {says}
        {of > 1 && `, ${Math.min(done, of)} of ${of}`}
      </label>
      {of === 0 ? <progress className="progress" id={id} /> : <progress className="progress" id={id} max={of} value={done} />}
    </p>
  )
}
