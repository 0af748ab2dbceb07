import type { PlanView, SetView } from '../../lib/usecases/index.ts'
import { TableHead } from '../_parts/TableHead.tsx'

function Usual({ usual }: { readonly usual: string | null }) {
  return usual === null ? null : <div className="small soft">Lowmark comes with: {usual}</div>
}

/** Whom the plan is for, which tests, how often. */
export function PlanTable({ rows }: Pick<PlanView, 'rows'>) {
  return (
    <table className="table stacked">
      <TableHead columns={['For whom', 'Tests', 'How often', 'Source']} />
      <tbody>
        {rows.map(({ title, tests, often, source, usual }) => (
          <tr key={title}>
            <td>
              <b>{title}</b>
            </td>
            <td data-label="Tests">{tests.join(', ')}</td>
            <td data-label="How often">
              {often}
              <Usual usual={usual} />
            </td>
            <td data-label="Source">{source}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

/** The grace and the thresholds in words, each with what it is set to. */
export function SetTable({ sets, of }: { readonly sets: readonly SetView[]; readonly of: string }) {
  return (
    <table className="table stacked">
      <caption>{of}</caption>
      <TableHead columns={['What', 'Set to', 'Source']} />
      <tbody>
        {sets.map(({ asks, value, source, usual }) => (
          <tr key={asks}>
            <td>{asks}</td>
            <td data-label="Set to">
              <b>{value}</b>
              <Usual usual={usual} />
            </td>
            <td data-label="Source">{source}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
