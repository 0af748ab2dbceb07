import { createColumnHelper } from '@tanstack/react-table'
import Link from 'next/link'
import { Strip } from '../_parts/chart/Strip.tsx'
import { counted, notedSays, WINDOW_WORDS, words } from '../_parts/words.ts'
import type { ListFeatures } from './features.ts'
import type { Listed } from './listed.ts'
import { assignedTag, roundTags } from './round/roundTags.tsx'

const column = createColumnHelper<ListFeatures, Listed>()

// What a cell shows is said by plain functions, and a text with a number in it is one text: fifty rows of components and pieces are felt.
function withClinician({ clinician }: Listed) {
  if (clinician === null) return null
  return (
    <>
      {' with '}
      <bdi>{clinician}</bdi>
    </>
  )
}

function patient(row: Listed) {
  const { id, address, name } = row
  if (address === null)
    return (
      <>
        <Link className="open pseudonym" href={`/cohort/${id}`} prefetch={false}>
          {id}
        </Link>
        <div>{withClinician(row)}</div>
      </>
    )
  return (
    <>
      <Link className="open" href={`/patients/${address}`} prefetch={false}>
        <bdi>{name ?? id}</bdi>
      </Link>
      <div>
        {name !== null && <bdi>{id}</bdi>}
        {withClinician(row)}
      </div>
      {assignedTag(row)}
    </>
  )
}

function tagsOf({ state, certainty, cautions, handedOver, noted, comesBackToYou, more, answered }: Listed) {
  const tags = [state === 'met' ? null : state, certainty === 'possible' ? 'possible, not certain' : null].filter((tag) => tag !== null)
  if (tags.length + cautions.length + more + answered === 0 && !comesBackToYou && handedOver === null && noted === null) return null
  return (
    <div className="tags">
      {tags.map((tag) => (
        <span className="tag" key={tag}>
          {tag}
        </span>
      ))}
      {cautions.map((caution) => (
        <span className="tag tag-caution" key={caution}>
          {`caution: ${words(caution)}`}
        </span>
      ))}
      {handedOver !== null && (
        <span className="tag">
          handed to physician by <bdi>{handedOver.by}</bdi> on {handedOver.on}
        </span>
      )}
      {noted !== null && (
        <span className="tag">
          <bdi>{notedSays(noted)}</bdi>
        </span>
      )}
      {comesBackToYou && <span className="tag">corrected since you reviewed it</span>}
      {more > 0 && <span>{`and ${counted(more, 'more finding')}`}</span>}
      {answered > 0 && <span>{`${answered} answered`}</span>}
    </div>
  )
}

function due({ nextDueOn, late }: Listed) {
  return (
    <>
      {nextDueOn ?? 'nothing due'}
      {late !== null && (
        <div className="late">{`${counted(late.days, 'day')} late: ${words(late.group)}${late.more > 0 ? `, and ${late.more} more` : ''}`}</div>
      )}
    </>
  )
}

function waiting({ daysWaiting, since, daysOnList }: Listed) {
  if (daysWaiting === null || since === null) return null
  return (
    <>
      {counted(daysWaiting, 'day')}
      <div>{`sample of ${since}`}</div>
      {daysOnList !== null && <div>{daysOnList === 0 ? 'listed today' : `on the list ${counted(daysOnList, 'day')}`}</div>}
    </>
  )
}

function why(row: Listed) {
  return (
    <>
      {row.why}
      {tagsOf(row)}
      {roundTags(row)}
    </>
  )
}

/** The columns of the review list; their ids are the sorts the address knows, where they can be sorted by. */
export const columns = column.columns([
  column.accessor('position', { id: 'urgency', header: 'Place', meta: { name: 'position', shows: ({ position }) => position } }),
  column.accessor('id', { id: 'patient', header: 'Patient', meta: { name: 'patient', shows: patient } }),
  column.accessor('phase', {
    header: 'Phase, care',
    enableSorting: false,
    meta: { name: 'phase', shows: ({ phase, care }) => (care === null ? words(phase) : `${words(phase)}, ${words(care)}`) },
  }),
  column.accessor('window', { header: 'Look', enableSorting: false, meta: { name: 'window', shows: ({ window }) => WINDOW_WORDS[window] } }),
  column.accessor('why', { header: 'Why', enableSorting: false, meta: { name: 'why', shows: why } }),
  column.accessor('strip', {
    header: 'From lowest to criterion',
    enableSorting: false,
    meta: { name: 'strip', shows: ({ strip }) => strip !== null && <Strip strip={strip} /> },
  }),
  column.accessor('daysWaiting', { id: 'waiting', header: 'Waiting', meta: { name: 'waiting', shows: waiting } }),
  column.accessor('nextDueOn', { id: 'next-due', header: 'Next due', meta: { name: 'due', shows: due } }),
])

/** Without the column that says how soon: in order of urgency the heading of each group says it. */
export const columnsInGroups = columns.filter((column) => column.meta?.name !== 'window')
