import type { ListQuery, RoundOfList } from '../../../lib/usecases/index.ts'

const ORDERS: readonly (readonly [ListQuery['sort'], string])[] = [
  ['urgency', 'most urgent first'],
  ['listed', 'longest on the list first'],
  ['waiting', 'oldest sample first'],
  ['next-due', 'next due first'],
  ['patient', 'by patient'],
]

/** The fields of the filter form that the rounds bring: what is kept from the ways above it, the round to compare with, and the order. */
export function RoundFields({ round, query }: { readonly round: RoundOfList; readonly query: ListQuery }) {
  return (
    <>
      {query.news && <input type="hidden" name="news" value={query.news} />}
      {query.has && <input type="hidden" name="has" value={query.has} />}
      {round.earlier.length > 1 && (
        <div className="field">
          <label htmlFor="by-since">Compared with</label>
          <select className="input" id="by-since" name="since" defaultValue={query.since ?? ''}>
            <option value="">the last round</option>
            {round.earlier.map(({ roundId, ended }) => (
              <option key={roundId} value={roundId}>
                round {roundId}, {ended}
              </option>
            ))}
          </select>
        </div>
      )}
      <div className="field">
        <label htmlFor="by-sort">Order</label>
        <select className="input" id="by-sort" name="sort" defaultValue={query.sort}>
          {ORDERS.map(([sort, says]) => (
            <option key={sort} value={sort}>
              {says}
            </option>
          ))}
        </select>
      </div>
    </>
  )
}
