import type { CohortImmunofixationView, ImmunofixationView } from '../../../lib/usecases/index.ts'
import { Scroll } from '../chart/index.ts'
import { TableHead } from '../TableHead.tsx'
import { counted } from '../words.ts'

type Fixation = ImmunofixationView | CohortImmunofixationView

function Row({ fixation }: { readonly fixation: Fixation }) {
  const { on, specimen, text, laboratory, corrected, reading, readAs, means } = fixation
  return (
    <tr>
      <th scope="row">
        <span className="day">{on}</span>
        <br />
        {specimen}
      </th>
      <td>
        {text === null ? <span className="soft">not shown</span> : <span className="received">{text}</span>}
        {laboratory !== null && (
          <div className="small soft">
            <bdi>{laboratory}</bdi>
            {corrected && ', corrected report'}
          </div>
        )}
      </td>
      <td>{reading === 'unread' ? <strong>{readAs}</strong> : readAs}</td>
      <td>
        {means.map((said) => (
          <div key={said}>{said}</div>
        ))}
      </td>
    </tr>
  )
}

/** Every immunofixation, newest first: as received, how it was read, and what it means against the type at diagnosis. */
export function Immunofixations({ fixations }: { readonly fixations: readonly Fixation[] }) {
  if (fixations.length === 0) return <p>No immunofixation is recorded.</p>
  const unread = fixations.filter(({ reading }) => reading === 'unread').length
  return (
    <>
      {unread > 0 && <p>{counted(unread, 'text was', 'texts were')} not understood and must be read by a person; no rule counts them.</p>}
      <Scroll className="scroll fixations" named="Table of immunofixations">
        <table className="table">
          <caption>Immunofixation of serum and urine, newest first</caption>
          <TableHead columns={['Collected', 'Text as received', 'Read as', 'Against the type at diagnosis']} />
          <tbody>
            {fixations.map((fixation) => (
              <Row key={`${fixation.on} ${fixation.specimen}`} fixation={fixation} />
            ))}
          </tbody>
        </table>
      </Scroll>
    </>
  )
}
