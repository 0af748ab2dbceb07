import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import {
  exportCohort,
  exportCohortFindings,
  exportFindings,
  exportList,
  type FindingJson,
  type ListQuery,
  listDocument,
  showCohort,
  showList,
} from '../../../lib/usecases/index.ts'
import { foundIn, IDENTITY } from '../../canaries/identity.ts'
import { inRole, plant, VALUES } from '../../canaries/planted.ts'
import { freshStore } from '../../store/freshStore.ts'
import { callOf, granted, logged } from '../accounts/persons.ts'
import { courseRows, csv, patientRow, resultRow, take } from '../clinic.ts'
import { filledStore } from '../cohort.ts'
import { readBack } from './readBack.ts'

const ALL: ListQuery = { window: null, phase: null, clinician: null, rule: null, sort: 'urgency', descending: false, page: 1, pageSize: 5000 }
const COHORT = { window: null, phase: null, clinician: null, rule: null, sort: 'urgency', descending: false } as const
const CAUTION = 'Lowmark flags for review. It does not diagnose, attribute or treat; local protocol and the treating physician decide.'

/** The page says who reviewed a finding, the file does not. */
const withoutReviewer = (why: string) => why.replace(/reviewed by canary-navigator on \d{4}-\d{2}-\d{2}/, 'reviewed by somebody of the clinic')

const plain = (text: string) => text.replaceAll("'", '')
const cells = (rows: readonly Readonly<Record<string, string>>[], ...names: readonly string[]) =>
  rows.map((row) => names.map((name) => plain(row[name] ?? '')))

function evidenceOf({ evidence }: FindingJson, role: string, part: keyof FindingJson['evidence'][number]): string {
  const told = evidence.filter((one) => one.role === role).map((one) => one[part] ?? '')
  return told.every((text) => text === '') ? '' : plain(told.join('; '))
}

describe('every current finding as a file', () => {
  let store: Store
  let dispose: () => Promise<void>
  beforeAll(async () => {
    ;({ store, dispose } = await filledStore())
  })
  afterAll(() => dispose())

  test('one row a finding, in the order of the list, with what the list and the JSON say of it', async () => {
    const file = granted(await exportFindings(callOf(store, 'navigator'), { query: ALL }))
    const { caution, about, rows } = readBack(file.text)
    expect([file.fileName, caution]).toEqual(['findings-2026-11-25.csv', CAUTION])
    const { patients } = granted(await listDocument(callOf(store), null))
    const all = patients.flatMap(({ patientId, position, phase, findings }) => findings.map((finding) => ({ patientId, position, phase, finding })))
    expect(rows.length).toBeGreaterThan(15)
    expect(cells(rows, 'place', 'patient', 'rule', 'state', 'certainty', 'since', 'finding', 'source')).toEqual(
      all.map(({ patientId, position, finding: { rule, state, certainty, since, says, source } }) =>
        [String(position), patientId, rule, state, certainty, since, says, source].map(plain),
      ),
    )
    for (const role of ['reference', 'previous', 'current'] as const) {
      expect(cells(rows, `${role} test`, `${role} comparator`, `${role} value`, `${role} unit`, `${role} collected`)).toEqual(
        all.map(({ finding }) => (['analyte', 'comparator', 'value', 'unit', 'collectedOn'] as const).map((part) => evidenceOf(finding, role, part))),
      )
    }
    const named = new Set(all.map(({ patientId }) => patientId)).size
    expect(about).toContain(
      `findings in this file: ${all.length}, of ${named} patients; patients of the list without a finding: ${patients.length - named}.`,
    )
    expect(rows.map(({ title }) => title)).not.toContain('')
  })

  test('answered findings are there, marked; as many as the list counts', async () => {
    const { rows } = readBack(granted(await exportFindings(callOf(store, 'navigator'), { query: ALL })).text)
    const shown = granted(await showList(callOf(store, 'navigator'), ALL)).rows
    const answered = shown.reduce((sum, row) => sum + row.answered, 0)
    expect(answered).toBeGreaterThan(0)
    expect(rows.filter((row) => row.answered === 'yes')).toHaveLength(answered)
    expect(rows.filter((row) => row.answered === 'no')).toHaveLength(rows.length - answered)
  })

  test('filters narrow whom it is of, as on the list; a past day is evaluated as that day', async () => {
    const call = callOf(store, 'physician')
    const under = async (query: Partial<ListQuery>) =>
      readBack(granted(await exportFindings(call, { query: { ...ALL, ...query } })).text).rows.map((row) => row.patient)
    const of = async (query: Partial<ListQuery>) =>
      granted(await showList(call, { ...ALL, ...query })).rows.filter((row) => row.rule !== null || row.answered > 0)
    for (const query of [{ phase: 'active' }, { rule: 'overdue' }, { window: 'within-7-days' }] as const) {
      const expected = (await of(query)).map(({ patientId }) => patientId)
      expect(expected.length).toBeGreaterThan(0)
      expect([...new Set(await under(query))]).toEqual(expected)
    }
    const asOf = '2026-06-01' as typeof call.today
    const file = granted(await exportFindings(call, { asOf }))
    const { patients } = granted(await listDocument(call, asOf))
    expect(file.fileName).toBe('findings-2026-06-01.csv')
    expect(cells(readBack(file.text).rows, 'patient', 'finding')).toEqual(
      patients.flatMap(({ patientId, findings }) => findings.map(({ says }) => [patientId, plain(says)])),
    )
  })

  test('the log names whom it is of, before it is given; who may not, gets nothing', async () => {
    const { rows } = readBack(granted(await exportFindings(callOf(store, 'navigator'), { query: { ...ALL, rule: 'overdue' } })).text)
    const [entry] = store.reader.trailPage({ actor: null, limit: 1, offset: 0 }).rows
    expect(entry?.event).toEqual({ action: 'list-exported', patients: [...new Set(rows.map((row) => row.patient))], as: 'findings' })
    for (const role of ['quality', 'administrator', 'none'] as const) {
      expect(await exportFindings(callOf(store, role), { query: ALL })).toMatchObject({ ok: false, kind: 'not-allowed' })
      expect(logged(store).at(-1)).toMatchObject({ action: 'access-refused', role, outcome: 'failure' })
    }
  })

  test('a list that only holds what comes back to the reader is exported as such', async () => {
    const query = { ...ALL, mine: true }
    const shown = granted(await showList(callOf(store, 'navigator'), query)).rows.map(({ patientId }) => patientId)
    const { rows } = readBack(granted(await exportList(callOf(store, 'navigator'), { query })).text)
    expect(rows.map(({ patient }) => patient)).toEqual(shown)
    expect(shown.length).toBeLessThan(granted(await showList(callOf(store, 'navigator'), ALL)).rows.length)
  })
})

test('nothing a spreadsheet runs is in it', async () => {
  const { store, dispose } = await freshStore()
  const results = [
    resultRow({ value: '10.0', accession: 'A1', collected_at: '2024-01-15' }),
    resultRow({ value: '16.0', accession: 'A2', collected_at: '2026-04-01' }),
  ]
  await take(store, [csv('p.csv', [patientRow({ family_name: '=1+1', clinician: '@SUM(A1)' })]), csv('c.csv', courseRows()), csv('r.csv', results)])
  const { rows } = readBack(granted(await exportFindings(callOf(store, 'navigator'), { query: ALL })).text)
  expect(rows.find(({ rule }) => rule === 'pd-serum')).toMatchObject({
    ...{ name: "'=1+1", clinician: "'@SUM(A1)", window: 'within 30 days', answered: 'no' },
    ...{ 'reference value': '10', 'reference unit': 'g/L', 'reference collected': '2024-01-15' },
    ...{ 'current value': '16', 'current collected': '2026-04-01' },
  })
  await dispose()
})

describe('under pseudonyms', () => {
  let store: Store
  let dispose: () => Promise<void>
  beforeAll(async () => {
    ;({ store, dispose } = await freshStore())
    await plant(store)
  })
  afterAll(() => dispose())

  test('list and findings name nobody, no clinician and nothing typed; with names they do', async () => {
    const quality = inRole(store, 'quality')
    const files = [granted(await exportCohort(quality, COHORT)), granted(await exportCohortFindings(quality, COHORT))]
    for (const { fileName, text } of files) {
      expect(fileName).toMatch(/^cohort-(list|findings)-\d{4}-\d{2}-\d{2}\.csv$/)
      expect(foundIn(text, [...IDENTITY, /Staff Physician/, /canary-/])).toBeNull()
      expect(readBack(text).caution).toBe(CAUTION)
    }
    const named = granted(await exportFindings(inRole(store, 'physician'), { asOf: null })).text
    for (const told of [/ZqcanaryFamily/, /Staff Physician/, /filtration|clearance|eGFR/i]) expect(named).toMatch(told)
  })

  test('they hold the same patients and findings as the page', async () => {
    const quality = inRole(store, 'quality')
    const page = granted(await showCohort(quality, { ...COHORT, page: 1, pageSize: 50 })).rows
    const list = readBack(granted(await exportCohort(quality, COHORT)).text).rows
    expect(cells(list, 'place', 'pseudonym', 'why')).toEqual(
      page.map((row) => [String(row.position), row.pseudonym, plain(withoutReviewer(row.why))]),
    )
    const findings = readBack(granted(await exportCohortFindings(quality, COHORT)).text).rows
    const { patients } = granted(await listDocument(inRole(store, 'physician'), null))
    expect(findings.map(({ rule }) => rule)).toEqual(patients.flatMap((one) => one.findings.map(({ rule }) => rule)))
    expect(new Set(findings.map(({ pseudonym }) => pseudonym))).toEqual(new Set(page.map(({ pseudonym }) => pseudonym)))
    const told = JSON.stringify(findings)
    for (const value of [VALUES.creatinine, VALUES.corrected]) expect(told).toContain(value)
    expect(told).toContain('reviewed-then-corrected')
  })

  test('the log keeps whose they were, by number, as an export for quality', async () => {
    granted(await exportCohortFindings(inRole(store, 'quality'), COHORT))
    const [entry] = store.reader.trailPage({ actor: null, limit: 1, offset: 0 }).rows
    expect(entry?.event).toMatchObject({ action: 'pseudonymous-list-exported', as: 'findings', patients: expect.arrayContaining(['ZQCANARY-1']) })
    for (const role of ['navigator', 'physician', 'administrator'] as const)
      for (const ask of [exportCohort, exportCohortFindings]) expect(await ask(inRole(store, role), COHORT)).toMatchObject({ kind: 'not-allowed' })
  })
})
