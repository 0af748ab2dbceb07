import Link from 'next/link'
import type { TrailRowView } from '../../lib/usecases/index.ts'
import { counted } from '../_parts/words.ts'

/** Whom an entry concerns, for a reader who is told by pseudonym; nothing for everybody else. */
export function Concerned({ row: { says, pseudonyms, concerned } }: { readonly row: Pick<TrailRowView, 'says' | 'pseudonyms' | 'concerned'> }) {
  const others = pseudonyms.filter((pseudonym) => !says.includes(pseudonym))
  if (others.length === 0) return null
  return (
    <details>
      <summary className="small">{counted(concerned, 'patient')}</summary>
      <ul className="pseudonyms small">
        {others.map((pseudonym) => (
          <li key={pseudonym}>
            <Link href={`/cohort/${pseudonym}`} prefetch={false}>
              {pseudonym}
            </Link>
          </li>
        ))}
        {concerned > pseudonyms.length && <li>{concerned - pseudonyms.length} more are not named here</li>}
      </ul>
    </details>
  )
}
