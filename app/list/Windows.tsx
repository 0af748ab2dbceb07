import Link from 'next/link'
import { WINDOWS, type Window } from '../../lib/rules/index.ts'
import type { ListQuery } from '../../lib/usecases/index.ts'
import { WINDOW_WORDS } from '../_parts/words.ts'
import { addressOf, type ListAt } from './address.ts'

interface Props {
  readonly query: ListQuery
  readonly byWindow: Readonly<Record<Window, number>>
  readonly followed: number
  readonly at?: ListAt
}

/** How many patients stand where, soonest first; each is the way to those patients alone. */
export function Windows({ query, byWindow, followed, at = '/list' }: Props) {
  return (
    <nav aria-label="How soon to look">
      <ul className="windows">
        {WINDOWS.map((window) => (
          <li key={window}>
            <Link
              className={`edge-${window}`}
              href={addressOf(query, { window }, at)}
              prefetch={false}
              aria-current={query.window === window ? 'true' : undefined}
            >
              <b>{byWindow[window]}</b> {WINDOW_WORDS[window]}
            </Link>
          </li>
        ))}
        <li>
          <Link href={addressOf(query, { window: null }, at)} prefetch={false} aria-current={query.window === null ? 'true' : undefined}>
            <b>{followed}</b> All
          </Link>
        </li>
      </ul>
    </nav>
  )
}
