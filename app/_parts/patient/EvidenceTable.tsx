import type { EvidenceView } from '../../../lib/usecases/index.ts'
import { Scroll } from '../chart/index.ts'
import { testName } from './names.ts'

const ROLES = { reference: 'held against', previous: 'sample before', current: 'current' } as const

/** Each value a finding rests on, with its day, laboratory, file and row. */
export function EvidenceTable({ evidence, of }: { readonly evidence: readonly EvidenceView[]; readonly of: string }) {
  if (evidence.length === 0) return null
  return (
    <Scroll className="scroll" named={`Evidence of ${of}`}>
      <table className="table evidence">
        <caption>Evidence of {of}</caption>
        <thead>
          <tr>
            <th scope="col">Role</th>
            <th scope="col">Test</th>
            <th scope="col">Value</th>
            <th scope="col">Collected</th>
            <th scope="col">As received: laboratory, file, row</th>
          </tr>
        </thead>
        <tbody>
          {evidence.map(({ role, analyte, comparator, value, unit, collectedOn, sources }) => (
            <tr key={`${role} ${analyte} ${collectedOn}`}>
              <th scope="row">{ROLES[role]}</th>
              <td>{testName(analyte)}</td>
              <td className="value">
                {comparator}
                {value} {/^\d/.test(value) ? unit : ''}
              </td>
              <td className="value">{collectedOn}</td>
              <td>
                {sources.length === 0 && 'no stored result'}
                {sources.map(({ fileName, line, received, laboratory }) => (
                  <div key={`${fileName} ${line}`}>
                    <span className="received">{received}</span>, {laboratory === null ? 'laboratory not named' : <bdi>{laboratory}</bdi>},{' '}
                    <bdi>{fileName}</bdi>, row {line}
                  </div>
                ))}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  )
}
