import type { TriedProfile } from '../../lib/usecases/index.ts'
import { TableHead } from '../_parts/TableHead.tsx'
import { counted, words } from '../_parts/words.ts'

/** What a profile that is not saved would make of the rows that wait. */
export function Tried({ tried: { waiting, tried, couldBeFiled, rows } }: { readonly tried: TriedProfile }) {
  return (
    <section aria-labelledby="tried">
      <h3 id="tried">What the trial showed</h3>
      <p className="said" role="status">
        {waiting === 0
          ? 'No row of this source waits.'
          : `${counted(waiting, 'row')} of this source wait${waiting === 1 ? 's' : ''}${tried < waiting ? `, the first ${tried} were read` : ''}: ${couldBeFiled} could be filed by this profile. Nothing was changed.`}
      </p>
      {rows.length > 0 && (
        <table className="table stacked">
          <caption>The first rows that wait</caption>
          <TableHead columns={['File and row', 'Waits for', 'Would', 'Read as']} />
          <tbody>
            {rows.map(({ fileName, line, reasonNow, stays, read }, at) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: several rows may come from one place of a file.
              <tr key={at}>
                <td>
                  <bdi>{fileName}</bdi>, {line}
                </td>
                <td data-label="Waits for">{words(reasonNow)}</td>
                <td data-label="Would">{stays === null ? 'be filed' : `wait for: ${words(stays)}`}</td>
                <td data-label="Read as">
                  {read.map(({ column, text, as }) => (
                    <div key={column}>
                      {words(column.replaceAll('_', '-'))}: <span className="received">{text === '' ? '(empty)' : text}</span> as{' '}
                      <span className="received">{as}</span>
                    </div>
                  ))}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  )
}
