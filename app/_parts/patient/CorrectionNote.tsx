import type {
  CohortCorrectionView,
  CohortFindingView,
  CohortReportView,
  CorrectionView,
  FindingView,
  ReportView,
} from '../../../lib/usecases/index.ts'
import { words } from '../words.ts'
import { testName } from './names.ts'
import './work.css'

function Report({ report: { received, status, laboratory, fileName, line } }: { readonly report: ReportView | CohortReportView }) {
  return (
    <>
      {received !== '' && <span className="received">{received}</span>}
      {received === '' ? '' : ', '}
      {words(status)}, {laboratory === null ? 'laboratory not named' : <bdi>{laboratory}</bdi>}
      {fileName !== undefined && (
        <>
          , <bdi>{fileName}</bdi>, row {line}
        </>
      )}
    </>
  )
}

const DID: Readonly<Record<CorrectionView['decided'][number]['kind'], string>> = {
  reviewed: 'Had been reviewed',
  'handed-over': 'Had been handed to a physician',
  attributed: 'Another cause had been recorded',
  excluded: 'The report before had been excluded',
}

interface Props {
  readonly correction: CorrectionView | CohortCorrectionView
  /** Earlier reviews that the finding shows with their notes. */
  readonly notes: (FindingView | CohortFindingView)['pastAnswers']
  /** Whether the finding's own sentence says it all already. */
  readonly said: boolean
}

/** Which report made, changed or took back a finding: both values with file and row, and who had decided on it. Why, no laboratory says. */
export function CorrectionNote({ correction: { says, reports, decided }, notes, said }: Props) {
  const others = decided.filter(
    ({ kind, by, on }) => (kind !== 'reviewed' && kind !== 'handed-over') || !notes.some((note) => note.by === by && note.on === on),
  )
  return (
    <div className="corrected">
      {!said && <p>{says}</p>}
      <ul className="small soft">
        {reports.map(({ analyte, collectedOn, before, now }) => (
          <li key={`${analyte} ${collectedOn} ${before.received} ${now?.received} ${before.fileName} ${before.line} ${now?.fileName} ${now?.line}`}>
            {testName(analyte)} of {collectedOn}. Before: <Report report={before} />. Now: {now === null ? 'not counted' : <Report report={now} />}.
          </li>
        ))}
      </ul>
      {!said &&
        others.map(({ kind, by, on }) => (
          <p key={`${kind} ${by} ${on}`}>
            {DID[kind]} by <bdi>{by}</bdi> on {on}.
          </p>
        ))}
    </div>
  )
}
