import { createColumnHelper } from '@tanstack/react-table'
import Link from 'next/link'
import type { CohortRow, ListRow } from '../../lib/usecases/index.ts'
import { Strip } from '../_parts/chart/Strip.tsx'
import { counted, WINDOW_WORDS, words } from '../_parts/words.ts'
import type { ListFeatures } from './features.ts'
import { AssignedTag, OnList, RoundTags } from './round/RoundTags.tsx'

/** A place of the list, with names or under a pseudonym. */
export type Listed = ListRow | CohortRow

const column = createColumnHelper<ListFeatures, Listed>()

function With({ clinician }: Pick<ListRow, 'clinician'>) {
  if (clinician === null) return null
  return (
    <>
      {' '}
      with <bdi>{clinician}</bdi>
    </>
  )
}

function Pseudonym({ row: { pseudonym, clinician } }: { readonly row: CohortRow }) {
  return (
    <>
      <Link className="open pseudonym" href={`/cohort/${pseudonym}`} prefetch={false}>
        {pseudonym}
      </Link>
      <div className="small soft">
        <With clinician={clinician} />
      </div>
    </>
  )
}

function Patient({ row }: { readonly row: ListRow }) {
  return (
    <>
      <Link className="open" href={`/patients/${row.address}`} prefetch={false}>
        <bdi>{row.name ?? row.patientId}</bdi>
      </Link>
      <div className="small soft">
        {row.name === null ? '' : <bdi>{row.patientId}</bdi>}
        <With clinician={row.clinician} />
      </div>
      <AssignedTag round={row.round} />
    </>
  )
}

function Why({ row }: { readonly row: Listed }) {
  const tags = [row.state === 'met' ? null : row.state, row.certainty === 'possible' ? 'possible, not certain' : null].filter((tag) => tag !== null)
  const tagged = tags.length + row.cautions.length + row.more + row.answered > 0 || row.comesBackToYou === true || row.handedOver !== null
  return (
    <>
      {row.why}
      {tagged && (
        <div className="tags">
          {tags.map((tag) => (
            <span className="tag" key={tag}>
              {tag}
            </span>
          ))}
          {row.cautions.map((caution) => (
            <span className="tag tag-caution" key={caution}>
              caution: {words(caution)}
            </span>
          ))}
          {row.handedOver !== null && (
            <span className="tag">
              handed to physician by <bdi>{row.handedOver.by}</bdi> on {row.handedOver.on}
            </span>
          )}
          {row.comesBackToYou === true && <span className="tag">corrected since you reviewed it</span>}
          {row.more > 0 && <span>and {counted(row.more, 'more finding')}</span>}
          {row.answered > 0 && <span>{row.answered} answered</span>}
        </div>
      )}
      <RoundTags round={'round' in row ? row.round : undefined} window={row.window} />
    </>
  )
}

function Due({ row }: { readonly row: Listed }) {
  const worst = row.overdue.toSorted((a, b) => b.daysLate - a.daysLate)[0]
  return (
    <>
      {row.nextDueOn ?? 'nothing due'}
      {worst !== undefined && (
        <div className="small late">
          {counted(worst.daysLate, 'day')} late: {words(worst.group)}
          {row.overdue.length > 1 && `, and ${row.overdue.length - 1} more`}
        </div>
      )}
    </>
  )
}

function Waiting({ row }: { readonly row: Listed }) {
  if (row.daysWaiting === null || row.since === null) return null
  return (
    <>
      {counted(row.daysWaiting, 'day')}
      <div className="small soft">sample of {row.since}</div>
      <OnList round={'round' in row ? row.round : undefined} />
    </>
  )
}

/** The columns of the review list; their ids are the sorts the address knows, where they can be sorted by. */
export const columns = column.columns([
  column.accessor('position', { id: 'urgency', header: 'Place', cell: ({ row }) => row.original.position, meta: { name: 'position' } }),
  column.accessor('patientId', {
    id: 'patient',
    header: 'Patient',
    cell: ({ row: { original } }) => ('pseudonym' in original ? <Pseudonym row={original} /> : <Patient row={original} />),
    meta: { name: 'patient' },
  }),
  column.accessor('phase', {
    header: 'Phase, care',
    enableSorting: false,
    cell: ({ row: { original } }) => (original.care === null ? words(original.phase) : `${words(original.phase)}, ${words(original.care)}`),
    meta: { name: 'phase' },
  }),
  column.accessor('window', { header: 'Look', enableSorting: false, cell: ({ row }) => WINDOW_WORDS[row.original.window], meta: { name: 'window' } }),
  column.accessor('why', { header: 'Why', enableSorting: false, cell: ({ row }) => <Why row={row.original} />, meta: { name: 'why' } }),
  column.accessor('strip', {
    header: 'From lowest to criterion',
    enableSorting: false,
    cell: ({ row }) => (row.original.strip === null ? null : <Strip strip={row.original.strip} />),
    meta: { name: 'strip' },
  }),
  column.accessor('daysWaiting', {
    id: 'waiting',
    header: 'Waiting',
    cell: ({ row }) => <Waiting row={row.original} />,
    meta: { name: 'waiting', label: 'Waiting' },
  }),
  column.accessor('nextDueOn', {
    id: 'next-due',
    header: 'Next due',
    cell: ({ row }) => <Due row={row.original} />,
    meta: { name: 'due', label: 'Next due' },
  }),
])

/** Without the column that says how soon: in order of urgency the heading of each group says it. */
export const columnsInGroups = columns.filter((column) => column.meta?.name !== 'window')
