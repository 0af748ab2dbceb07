import type { FileReport } from '../../lib/usecases/index.ts'
import { counted, instantText, words } from '../_parts/words.ts'
import { kindOf } from './kindOf.ts'

const COUNTS = [
  ['rows', 'rows read'],
  ['filed', 'filed'],
  ['known', 'already known'],
  ['corrected', 'corrected'],
  ['held', 'held'],
  ['refused', 'refused'],
] as const

/** Several rows may come from one place of a file, such as the parts of one FHIR Observation. */
function withKeys(problems: FileReport['problems']) {
  return problems.map((row, at) => ({ key: `${row.line}-${at}`, row }))
}

function Problems({ report }: { readonly report: FileReport }) {
  const missing = report.held + report.refused - report.problems.length
  return (
    <>
      <table className="table stacked">
        <thead>
          <tr>
            <th scope="col">Row</th>
            <th scope="col">Became</th>
            <th scope="col">Why</th>
            <th scope="col">As received</th>
          </tr>
        </thead>
        <tbody>
          {withKeys(report.problems).map(({ key, row }) => (
            <tr key={key}>
              <td data-label="Row">{row.line}</td>
              <td>{row.outcome}</td>
              <td>
                {row.sentence} <span className="small soft">({words(row.reason)})</span>
              </td>
              <td className="received">{row.row}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {missing > 0 && <p className="soft">{counted(missing, 'further row')} on the pages of this report.</p>}
    </>
  )
}

/** What became of one file: rows read = filed + already known + corrected + held + refused. */
export function Report({ report }: { readonly report: FileReport }) {
  const kind = kindOf(report)
  const id = `report-${report.sha256.slice(0, 12)}`
  return (
    <section aria-labelledby={id}>
      <h2 id={id}>
        <bdi>{report.fileName}</bdi>
        {report.dryRun && ' (tried, nothing filed)'}
      </h2>
      <p className="small soft">
        {kind === null ? 'Kind not told' : `${kind} file`}, {counted(report.bytes, 'byte')}
        {report.source !== null && `, source ${report.source}`}, received {instantText(report.receivedAt)} by <bdi>{report.receivedBy}</bdi>, SHA-256{' '}
        <span className="received">{report.sha256}</span>
      </p>
      {report.refusedWhole !== null ? (
        <p className="notice notice-alert">
          The whole file is refused: {report.refusedWhole.sentence} ({words(report.refusedWhole.reason)})
        </p>
      ) : (
        <>
          <dl className="counts">
            {COUNTS.map(([name, says]) => (
              <div key={name}>
                <dt>{says}</dt>
                <dd>{report[name]}</dd>
              </div>
            ))}
          </dl>
          {report.rows < report.rowsInFile && (
            <p className="notice notice-alert">
              {report.rows} of the file's {counted(report.rowsInFile, 'row')} are taken in so far. If nobody is taking it in now, it was interrupted:
              send it again. Rows that are filed will be known, the others follow.
            </p>
          )}
          {report.released > 0 && <p>{counted(report.released, 'row')} held earlier could be filed now.</p>}
          {report.patientsAdded > 0 && (
            <p>
              {counted(report.patientsAdded, 'patient')} nobody knew {report.dryRun ? 'would be' : report.patientsAdded === 1 ? 'was' : 'were'} added
              with their results: the source is trusted to add patients.
            </p>
          )}
          {report.held > 0 && !report.dryRun && (
            <p>
              <a href="/held">Decide on held rows</a>
            </p>
          )}
          {report.problems.length > 0 ? <Problems report={report} /> : <p className="soft">No row was held or refused.</p>}
          {report.fileId !== null && (
            <p>
              <a href={`/intake/${report.fileId}`}>The lasting report, with every row</a>
            </p>
          )}
        </>
      )}
    </section>
  )
}
