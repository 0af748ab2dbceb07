import { renderToStaticMarkup } from 'react-dom/server'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { PaperList } from '../../app/_parts/paper/PaperList.tsx'
import { PaperSummary } from '../../app/_parts/paper/PaperSummary.tsx'
import type { Store } from '../../lib/store/index.ts'
import { type ListQuery, MOST_ON_PAPER, patientOnPaper, printList, showList } from '../../lib/usecases/index.ts'
import { callOf, granted } from '../usecases/accounts/persons.ts'
import { filledStore } from '../usecases/cohort.ts'

const ALL: ListQuery = { window: null, phase: null, clinician: null, rule: null, sort: 'patient', descending: true, page: 3, pageSize: 2 }
const CAUTION = 'Lowmark flags for review. It does not diagnose, attribute or treat; local protocol and the treating physician decide.'

/** Text of a page as it is read. */
const textOf = (html: string) =>
  html
    .replace(/<[^>]+>/g, ' ')
    .replace(/&#x27;/g, "'")
    .replace(/&amp;/g, '&')
    .replace(/&lt;/g, '<')
    .replace(/&gt;/g, '>')
    .replace(/\s+/g, ' ')

describe('on paper', () => {
  let store: Store
  let dispose: () => Promise<void>
  beforeAll(async () => {
    ;({ store, dispose } = await filledStore())
  })
  afterAll(() => dispose())

  test('the list has everybody, soonest windows first, whatever page and order the screen had', async () => {
    const call = callOf(store, 'navigator')
    const list = granted(await printList(call, ALL))
    const shown = granted(await showList(call, { ...ALL, sort: 'urgency', descending: false, page: 1, pageSize: 5000 }))
    expect(list.rows.map(({ patientId }) => patientId)).toEqual(shown.rows.map(({ patientId }) => patientId))
    expect([list.matching, list.rows.length]).toEqual([shown.matching, shown.matching])
    const text = textOf(renderToStaticMarkup(<PaperList list={list} />))
    for (const row of shown.rows) for (const part of [row.patientId, row.why]) expect(text).toContain(part.replace(/\s+/g, ' '))
    expect(text).toContain(CAUTION)
    const [entry] = store.reader.trailPage({ actor: null, limit: 2, offset: 1 }).rows
    expect(entry?.event).toEqual({ action: 'list-exported', patients: list.rows.map(({ patientId }) => patientId), as: 'paper' })
  })

  test('a list that is longer than paper takes says how many are not on it', async () => {
    const list = granted(await printList(callOf(store, 'navigator'), ALL))
    const rows = list.rows.slice(0, 3)
    const text = textOf(renderToStaticMarkup(<PaperList list={{ ...list, rows, matching: MOST_ON_PAPER + 40 }} />))
    expect(text).toContain(`The 3 soonest; ${MOST_ON_PAPER + 37} more are not on paper: filter the list to print them.`)
  })

  test('a summary says of each finding what the page says, with caution and source, and no typed note', async () => {
    const list = granted(await printList(callOf(store, 'physician'), ALL))
    for (const { patientId } of list.rows.slice(0, 15)) {
      const patient = granted(await patientOnPaper(callOf(store, 'physician'), patientId))
      const text = textOf(renderToStaticMarkup(<PaperSummary patient={patient} />))
      for (const part of [CAUTION, patientId, patient.why, ...patient.findings.flatMap(({ title, says, source }) => [title, says, source])])
        expect(text).toContain(part.replace(/\s+/g, ' '))
      for (const { answered } of patient.findings) if (answered !== null && answered.note !== '') expect(text).not.toContain(answered.note)
    }
    const [entry] = store.reader.trailPage({ actor: null, limit: 1, offset: 0 }).rows
    expect(entry?.event).toMatchObject({ action: 'patient-exported', as: 'paper', revision: expect.any(Number) })
  })
})
