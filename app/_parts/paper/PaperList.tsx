import type { PaperList as List, ListRow } from '../../../lib/usecases/index.ts'
import { Scroll } from '../chart/index.ts'
import { EmptySentence } from '../EmptySentence.tsx'
import { counted, notedSays, WINDOW_WORDS, words } from '../words.ts'
import './paper.css'

const COLUMNS = ['Done', 'Place', 'Patient', 'Look', 'Why', 'Waiting', 'Next due', 'By hand'] as const
const CAUTION = 'Lowmark flags for review. It does not diagnose, attribute or treat; local protocol and the treating physician decide.'

function marks({ state, certainty, cautions, more, answered, handedOver, noted }: ListRow): string[] {
  return [
    ...(state === null || state === 'met' ? [] : [state]),
    ...(certainty === 'possible' ? ['possible, not certain'] : []),
    ...cautions.map((caution) => `caution: ${words(caution)}`),
    ...(handedOver === null ? [] : [`handed to physician by ${handedOver.by} on ${handedOver.on}`]),
    ...(noted === null ? [] : [notedSays(noted)]),
    ...(more === 0 ? [] : [`and ${counted(more, 'more finding')}`]),
    ...(answered === 0 ? [] : [`${answered} answered`]),
  ]
}

function Place({ row }: { readonly row: ListRow }) {
  const { position, patientId, name, clinician, phase, care, window, why, since, daysWaiting, nextDueOn, overdue } = row
  const told = marks(row)
  return (
    <tr>
      <td>
        <span className="tick" />
      </td>
      <td>{position}</td>
      <th scope="row">
        <bdi>{name ?? patientId}</bdi>
        <div className="small soft">
          {name !== null && <bdi>{patientId}</bdi>} {words(phase)}
          {care !== null && `, ${words(care)}`}
          {clinician !== null && (
            <>
              , with <bdi>{clinician}</bdi>
            </>
          )}
        </div>
      </th>
      <td>{WINDOW_WORDS[window]}</td>
      <td>
        {why}
        {told.length > 0 && <div className="small soft">{told.join('; ')}</div>}
      </td>
      <td>{daysWaiting === null ? '' : `${counted(daysWaiting, 'day')}, since ${since}`}</td>
      <td>
        {nextDueOn ?? 'nothing due'}
        {overdue.length > 0 && <div className="small">{overdue.map(({ group, dueOn }) => `${words(group)} due ${dueOn}`).join('; ')}</div>}
      </td>
      <td />
    </tr>
  )
}

/** The whole list for paper: its head and the caution on each sheet, a box to tick and room to write in each row. */
export function PaperList({ list: { asOf, planVersion, rows, matching } }: { readonly list: List }) {
  const cut =
    rows.length < matching ? ` The ${rows.length} soonest; ${matching - rows.length} more are not on paper: filter the list to print them.` : ''
  const about = `Review list, ${asOf}. ${counted(matching, 'patient')}, plan version ${planVersion}.${cut}`
  return (
    <div className="paper paper-list">
      <h1>Review list for paper, {asOf}</h1>
      {cut !== '' && <p className="notice">{cut.trim()}</p>}
      {rows.length === 0 && <EmptySentence says="Nobody is on this list, so there is nothing to print." />}
      <Scroll className="scroll" named="The list">
        <table className="table">
          <thead>
            <tr>
              <th colSpan={COLUMNS.length}>{about}</th>
            </tr>
            <tr>
              {COLUMNS.map((column) => (
                <th scope="col" key={column}>
                  {column}
                </th>
              ))}
            </tr>
          </thead>
          <tfoot>
            <tr>
              <td colSpan={COLUMNS.length} className="small">
                {CAUTION}
              </td>
            </tr>
          </tfoot>
          <tbody>
            {rows.map((row) => (
              <Place row={row} key={row.patientId} />
            ))}
          </tbody>
        </table>
      </Scroll>
    </div>
  )
}
