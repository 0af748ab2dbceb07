import Link from 'next/link'
import type { ListQuery, RoundOfList } from '../../../lib/usecases/index.ts'
import { addressOf } from '../address.ts'

interface Way {
  readonly says: string
  readonly count: number
  readonly change: Partial<ListQuery>
  readonly isOn: boolean
}

function newsWays({ news }: RoundOfList, query: ListQuery): Way[] {
  if (news === null) return []
  const one = (says: string, count: number, value: 'new' | 'came-back' | 'waiting'): Way => {
    const isOn = query.news === value
    return { says, count, change: { news: isOn ? null : value }, isOn }
  }
  return [one('new', news.isNew, 'new'), one('came back', news.cameBack, 'came-back'), one('waiting', news.open - news.either, 'waiting')]
}

function whoWays({ having, nobodys, you }: RoundOfList, query: ListQuery): Way[] {
  const own = having.find(({ accountId }) => accountId === you)?.patients ?? 0
  const one = (says: string, count: number, value: 'me' | 'nobody' | number): Way => {
    const isOn = query.has === value
    return { says, count, change: { has: isOn ? null : value }, isOn }
  }
  const others = having.filter(({ accountId }) => accountId !== you)
  const named = ({ name, disabled }: (typeof others)[number]) => `${name}${disabled ? ' (account disabled)' : ''}`
  return [
    one('mine', own, 'me'),
    one("nobody's", nobodys, 'nobody'),
    ...others.map((person) => one(named(person), person.patients, person.accountId)),
  ]
}

function Ways({ says, ways, query }: { readonly says: string; readonly ways: readonly Way[]; readonly query: ListQuery }) {
  if (ways.length === 0) return null
  return (
    <nav className="round-ways no-print" aria-label={says}>
      <span className="soft">{says}</span>
      <ul>
        {ways.map((way) => (
          <li key={way.says}>
            <Link href={addressOf(query, way.change)} prefetch={false} aria-current={way.isOn ? 'true' : undefined}>
              <b>{way.count}</b> <bdi>{way.says}</bdi>
            </Link>
          </li>
        ))}
      </ul>
    </nav>
  )
}

/** The ways to what is new, what came back and what waits, and to whose patients they are. The one that is on leads back. */
export function RoundWays({ round, query }: { readonly round: RoundOfList; readonly query: ListQuery }) {
  return (
    <>
      <Ways says={`Since round ${round.since?.roundId ?? ''}`} ways={newsWays(round, query)} query={query} />
      <Ways says="Who has them" ways={whoWays(round, query)} query={query} />
    </>
  )
}
