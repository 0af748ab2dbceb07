'use client'

import { useId, useState } from 'react'
import type { CohortResultView, ResultView } from '../../../lib/usecases/index.ts'
import { Scroll } from '../chart/index.ts'
import { TableHead } from '../TableHead.tsx'
import type { PatientActs } from './acts.ts'
import { testName } from './names.ts'
import { ResultRow } from './ResultRow.tsx'

interface Props extends Pick<PatientActs, 'exclude' | 'restore'> {
  /** Newest first. */
  readonly results: readonly (ResultView | CohortResultView)[]
  /** Null under a pseudonym, where nothing can be done and no file is named. */
  readonly patientId: string | null
}

const FILE = 'File, row'
const COLUMNS = ['Collected', 'Test', 'As received', 'Laboratory, method', FILE, 'Version', 'Counts']
/** Rows drawn at first, and more of them with each press: a long course has thousands. */
const STEP = 50

/** Every stored result, newest first, of all tests or of one. */
export function AllResults({ results, patientId, exclude, restore }: Props) {
  const [test, setTest] = useState('')
  const [most, setMost] = useState(STEP)
  const choice = useId()
  const fitting = results.filter(({ analyte }) => test === '' || analyte === test)
  const shown = fitting.slice(0, most)
  const tests = [...new Set(results.map(({ analyte }) => analyte))].toSorted((a, b) => testName(a).localeCompare(testName(b), 'en'))
  return (
    <>
      <div className="filters no-print">
        <div className="field">
          <label htmlFor={choice}>Test</label>
          <select
            className="input"
            id={choice}
            value={test}
            onChange={(event) => {
              setTest(event.target.value)
              setMost(STEP)
            }}
          >
            <option value="">all tests</option>
            {tests.map((analyte) => (
              <option key={analyte} value={analyte}>
                {testName(analyte)}
              </option>
            ))}
          </select>
        </div>
      </div>
      <Scroll className="results-box" named="Table of results">
        <table className="table stacked results">
          <caption>
            {test === '' ? 'All tests' : testName(test)}, newest first: {shown.length} of {fitting.length}
          </caption>
          <TableHead columns={patientId === null ? COLUMNS.filter((column) => column !== FILE) : COLUMNS} />
          <tbody>
            {shown.map((result) => (
              <ResultRow key={result.resultId} result={result} patientId={patientId} exclude={exclude} restore={restore} />
            ))}
          </tbody>
        </table>
      </Scroll>
      {shown.length < fitting.length && (
        <button className="button button-quiet no-print" type="button" onClick={() => setMost(most + STEP)}>
          Show older results
        </button>
      )}
    </>
  )
}
