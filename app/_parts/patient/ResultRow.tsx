'use client'

import type { CohortResultView, ResultView } from '../../../lib/usecases/index.ts'
import { TwoStepForm, useTwoSteps } from '../courseChange/index.ts'
import { Told } from '../Told.tsx'
import { words } from '../words.ts'
import type { PatientActs } from './acts.ts'
import { DoesNotCount } from './DoesNotCount.tsx'
import { testName } from './names.ts'

interface Props {
  readonly result: ResultView | CohortResultView
  readonly patientId: string | null
  readonly exclude: NonNullable<PatientActs['exclude']>
  readonly restore: NonNullable<PatientActs['restore']>
}

function Change({ result, patientId, exclude, restore }: Props & { readonly patientId: string }) {
  const excluding = useTwoSteps(exclude)
  const restoring = useTwoSteps(restore)
  const about = { patientId, resultId: String(result.resultId) }
  const to = `${testName(result.analyte)} ${result.received} of ${result.collectedOn}`
  if (result.excluded === null) {
    return (
      <>
        <TwoStepForm key="exclude" steps={excluding} says="Exclude" to={to} button="Exclude this value" about={about} why="Why it does not count" />
        <Told key="restored" outcome={restoring.form.outcome}>
          Restored: it counts again.
        </Told>
      </>
    )
  }
  return (
    <>
      <TwoStepForm key="restore" steps={restoring} says="Restore" to={to} button="Restore this value" about={about} why="Why it counts again" />
      <Told key="excluded" outcome={excluding.form.outcome}>
        Excluded. Everything on this page was worked out without it.
      </Told>
    </>
  )
}

/** One stored result: as received, where it came from, whether it counts, and for a physician the way to change that. */
export function ResultRow({ result, patientId, exclude, restore }: Omit<Props, 'exclude' | 'restore'> & Pick<PatientActs, 'exclude' | 'restore'>) {
  const { analyte, collectedOn, received, laboratory, method, fileName, line, version, status, excluded } = result
  return (
    <tr>
      <td className="value" data-label="Collected">
        {collectedOn}
      </td>
      <th scope="row">{testName(analyte)}</th>
      <td data-label="As received">{excluded === null ? <span className="received">{received}</span> : <s className="received">{received}</s>}</td>
      <td data-label="Laboratory, method">
        {laboratory === null ? 'not named' : <bdi>{laboratory}</bdi>}
        {method !== null && (
          <>
            , <bdi>{method}</bdi>
          </>
        )}
      </td>
      {fileName !== undefined && (
        <td data-label="File, row">
          <bdi>{fileName}</bdi>, row {line}
        </td>
      )}
      <td data-label="Version">
        {version}, {words(status)}
      </td>
      <td className="counts-cell">
        {excluded === null ? 'counts' : <DoesNotCount excluded={excluded} />}
        {patientId !== null && exclude !== null && restore !== null && (
          <Change result={result} patientId={patientId} exclude={exclude} restore={restore} />
        )}
      </td>
    </tr>
  )
}
