import type { PlanVersionView } from '../../lib/usecases/index.ts'
import { counted, instantText } from '../_parts/words.ts'
import { Differences } from './Differences.tsx'

function span({ from, until }: PlanVersionView): string {
  return `${from === null ? 'from the beginning' : `from ${from}`}${until === null ? ' on' : ` until ${until}`}`
}

function Version({ one }: { readonly one: PlanVersionView }) {
  const { version, time, note, proposedBy, publishedBy, publishedAt, differences } = one
  return (
    <li className="held-row">
      <h3>
        Version {version}, {time}
        {time !== 'never in force' && `, ${span(one)}`}
      </h3>
      {note === null ? (
        <p>As Lowmark comes.</p>
      ) : (
        <>
          <p>
            <bdi>{note}</bdi>
          </p>
          <p className="small soft">
            Proposed by <bdi>{proposedBy}</bdi>, published by <bdi>{publishedBy}</bdi>
            {publishedAt !== null && `, ${instantText(publishedAt)}`}
          </p>
          <details>
            <summary>{counted(differences.length, 'change')} from the version before</summary>
            <Differences differences={differences} of={`What version ${version} changed`} />
          </details>
        </>
      )}
    </li>
  )
}

/** The published versions in their times, latest first. */
export function Versions({ versions }: { readonly versions: readonly PlanVersionView[] }) {
  return (
    <ol className="held">
      {versions.map((one) => (
        <Version key={one.version} one={one} />
      ))}
    </ol>
  )
}
