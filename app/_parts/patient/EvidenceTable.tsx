import type { CohortEvidenceView, EvidenceView } from '../../../lib/usecases/index.ts'
import { Scroll } from '../chart/index.ts'
import { evidenceText } from '../evidenceText.ts'
import { testName } from './names.ts'

const ROLES = { reference: 'held against', previous: 'sample before', current: 'current' } as const

function Source({ source: { fileName, line, received, laboratory } }: { readonly source: (EvidenceView | CohortEvidenceView)['sources'][number] }) {
  const named = laboratory === null ? 'laboratory not named' : <bdi>{laboratory}</bdi>
  if (fileName === undefined) return <div>{named}</div>
  return (
    <div>
      <span className="received">{received}</span>, {named}, <bdi>{fileName}</bdi>, row {line}
    </div>
  )
}

/** Each value a finding rests on, with its day, laboratory, file and row. */
export function EvidenceTable({ evidence, of }: { readonly evidence: readonly (EvidenceView | CohortEvidenceView)[]; readonly of: string }) {
  if (evidence.length === 0) return null
  const isNamed = evidence.every(({ sources }) => sources.every(({ fileName }) => fileName !== undefined))
  // Two tests may come due on one day: the box names them, so that each has its own name.
  const tests = [...new Set(evidence.map(({ analyte }) => testName(analyte)))].join(', ')
  return (
    <Scroll className="scroll" named={`Evidence of ${of}: ${tests}`}>
      <table className="table evidence">
        <caption>Evidence of {of}</caption>
        <thead>
          <tr>
            <th scope="col">Role</th>
            <th scope="col">Test</th>
            <th scope="col">Value</th>
            <th scope="col">Collected</th>
            <th scope="col">{isNamed ? 'As received: laboratory, file, row' : 'Laboratory'}</th>
          </tr>
        </thead>
        <tbody>
          {evidence.map((piece) => (
            <tr key={`${piece.role} ${piece.analyte} ${piece.collectedOn}`}>
              <th scope="row">{ROLES[piece.role]}</th>
              <td>{testName(piece.analyte)}</td>
              <td className="value">{evidenceText(piece)}</td>
              <td className="value">{piece.collectedOn}</td>
              <td>
                {piece.sources.length === 0 && 'no stored result'}
                {piece.sources.map((source) => (
                  <Source key={source.fileName === undefined ? source.laboratory : `${source.fileName} ${source.line}`} source={source} />
                ))}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  )
}
