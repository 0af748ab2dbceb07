import type { NumberView } from '../../../lib/usecases/index.ts'

/** Numbers, each with how far it can be relied on, and with what the clinic has chosen in its place. */
export function NumberList({ numbers }: { readonly numbers: readonly NumberView[] }) {
  if (numbers.length === 0) return <p>It has no number of its own.</p>
  return (
    <ul className="plain-list">
      {numbers.map(({ says, mark, chosen }) => (
        <li key={says}>
          {says} <span className="soft">{mark}</span>
          {chosen.length > 0 && <b> This clinic has chosen: {chosen.join(', ')}.</b>}
        </li>
      ))}
    </ul>
  )
}
