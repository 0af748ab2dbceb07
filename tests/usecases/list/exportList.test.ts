import Papa from 'papaparse'
import { expect, test } from 'vitest'
import type { ListQuery } from '../../../lib/usecases/index.ts'
import { exportList, listDocument, showList } from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { callOf, granted, logged } from '../accounts/persons.ts'
import { courseRows, csv, patientRow, resultRow, take } from '../clinic.ts'

const QUERY: ListQuery = { window: null, phase: null, clinician: null, rule: null, sort: 'urgency', descending: false, page: 1, pageSize: 50 }

async function clinic() {
  const fresh = await freshStore()
  const people = [
    patientRow({ patient_id: 'P1', family_name: '=1+1', given_name: '\u05db\u05d4\u05df', clinician: '@SUM(A1)' }),
    patientRow({ patient_id: '-2+3', family_name: "O'Brien", given_name: 'Null', clinician: 'Dr One' }),
    patientRow({ patient_id: '__proto__', family_name: '', given_name: '', clinician: '' }),
    patientRow({ patient_id: 'P9', family_name: 'Gone', given_name: '', clinician: 'Dr One' }),
  ]
  const gone = { patient_id: 'P9', on: '2025-01-01', event: 'left', reason: 'transferred' }
  const results = ['10.0', '16.0'].map((value, at) => resultRow({ value, accession: `A${at}`, collected_at: `2026-0${at + 3}-01` }))
  await take(fresh.store, [csv('p.csv', people), csv('c.csv', [...courseRows(), ...courseRows('-2+3')]), csv('l.csv', [gone]), csv('r.csv', results)])
  return fresh
}

/** The records of a file, apart: caution, about, the blank one, and the table by its header. */
function readBack(text: string) {
  const [caution, about, blank, header = [], ...rows] = Papa.parse<string[]>(text.slice(1).trimEnd(), { delimiter: ',' }).data
  return { caution, about, blank, header, rows: rows.map((row) => Object.fromEntries(header.map((name, at) => [name, row[at]]))) }
}

test('the file has the caution line, and every followed patient as the list shows them, with nothing a spreadsheet runs', async () => {
  const { store, dispose } = await clinic()
  const call = callOf(store, 'navigator')
  const file = granted(await exportList(call, { query: QUERY }))
  const shown = granted(await showList(call, QUERY))
  expect(file.fileName).toBe('review-list-2026-11-25.csv')
  const { caution, about, blank, header, rows } = readBack(file.text)
  expect(caution?.[0]).toBe('Lowmark flags for review. It does not diagnose, attribute or treat; local protocol and the treating physician decide.')
  expect(about?.[0]).toMatch(/^Review list as of 2026-11-25, plan version .+; patients in this file: 3\.$/)
  expect(new Set(blank)).toEqual(new Set(['']))
  expect(header).toEqual(expect.arrayContaining(['patient', 'window', 'why', 'since', 'overdue', 'next due']))
  const apart = (text: string | null | undefined) => (text ?? '').replace(/^'/, '')
  expect(rows.map((row) => [row.place, apart(row.patient), apart(row.name), row.window, row.why, row.since, row['next due']])).toEqual(
    shown.rows.map((row) => [
      String(row.position),
      row.patientId,
      row.name ?? '',
      row.window.replaceAll('-', ' '),
      row.why,
      row.since ?? '',
      row.nextDueOn ?? '',
    ]),
  )
  expect(rows.find(({ patient }) => patient === 'P1')).toMatchObject({ name: "'=1+1, \u05db\u05d4\u05df", clinician: "'@SUM(A1)" })
  expect(rows.map((row) => row.patient)).toContain("'-2+3")
  const overdue = shown.rows[0]?.overdue[0]
  expect(rows[0]?.overdue).toContain(`due ${overdue?.dueOn} (days late: ${overdue?.daysLate})`)
  await dispose()
})

test('filters and order are those of the address, all its pages; a key of nobody exports nobody', async () => {
  const { store, dispose } = await clinic()
  const call = callOf(store, 'physician')
  const patients = async (query: Partial<ListQuery>) =>
    readBack(granted(await exportList(call, { query: { ...QUERY, ...query } })).text).rows.map((row) => row.patient)
  expect(await patients({ sort: 'patient', descending: true, page: 7, pageSize: 1 })).toEqual(['__proto__', 'P1', "'-2+3"])
  expect(await patients({ clinician: 'nobody' })).toEqual([])
  expect(await patients({ phase: 'active' })).toHaveLength(2)
  await dispose()
})

test('as of another day it is what the list of that day is', async () => {
  const { store, dispose } = await clinic()
  const call = callOf(store)
  const asOf = '2026-03-15' as typeof call.today
  const { rows } = readBack(granted(await exportList(call, { asOf })).text)
  const { patients } = granted(await listDocument(call, asOf))
  expect(rows.map(({ patient, why }) => [patient?.replace(/^'/, ''), why])).toEqual(patients.map(({ patientId, why }) => [patientId, why]))
  await dispose()
})

test('who exported whom is in the log, in the same breath; who may not, gets nothing and is in it too', async () => {
  const { store, dispose } = await clinic()
  granted(await exportList(callOf(store, 'navigator'), { query: QUERY }))
  expect(logged(store).at(-1)).toEqual({ actor: 'a navigator', role: 'navigator', action: 'list-exported', outcome: 'success' })
  const { rows } = store.reader.trailPage({ actor: null, limit: 1, offset: 0 })
  expect(rows[0]?.event).toMatchObject({ action: 'list-exported', patients: expect.arrayContaining(['P1', '-2+3', '__proto__']) })
  for (const role of ['quality', 'administrator', 'none'] as const) {
    expect(await exportList(callOf(store, role), { query: QUERY })).toMatchObject({ ok: false, kind: 'not-allowed' })
    expect(logged(store).at(-1)).toMatchObject({ action: 'access-refused', role, outcome: 'failure' })
  }
  await dispose()
})
