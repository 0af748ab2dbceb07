import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Role } from '../../../lib/access/index.ts'
import type { Store } from '../../../lib/store/index.ts'
import {
  acceptFiles,
  type IncomingFile,
  previewProfile,
  readReport,
  readSource,
  readSources,
  recheck,
  resolveHeld,
  saveProfile,
  tryProfile,
} from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { callOf, granted, logged } from '../accounts/persons.ts'
import { counts, csv, only, patientRow, resultRow, take, valuesOf } from '../clinic.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
  await take(store, [csv('patients.csv', [patientRow()])])
})
afterEach(() => dispose())

const WRITES = { source: 'North', decimalSign: 'comma', dayOrder: 'day-first', timeZone: 'Europe/Berlin', units: { '33358-3': 'g/L' } }
const save = (given: unknown, role: Role | 'console' = 'administrator') => saveProfile(callOf(store, role), { given, reason: 'as its manual says' })

async function taken(file: IncomingFile, source: string | null = 'North', dryRun = false) {
  const [report] = granted(await acceptFiles(callOf(store), [file], { source, dryRun }))
  if (report === undefined) throw new Error('no report')
  return report
}

const THEIRS = csv('north.csv', [
  resultRow({ collected_at: '3.2.2026 8:05', value: '14,2', unit: '', accession: 'A1' }),
  resultRow({ collected_at: '03.03.2026', value: '9,75', unit: 'g/L', accession: 'A2' }),
])
const OURS = csv('ours.csv', [
  resultRow({ collected_at: '2026-02-03T08:05+01:00', value: '14.2', accession: 'A1' }),
  resultRow({ collected_at: '2026-03-03', value: '9.75', accession: 'A2' }),
])

describe('a profile that holds', () => {
  test('a table written in the way of its source is the same table written our way', async () => {
    granted(await save(WRITES))
    expect(counts(await taken(THEIRS))).toEqual(only({ rows: 2, filed: 2 }))
    expect(valuesOf(store)).toEqual(['14,2', '9,75'])
    expect(counts(await taken(OURS, null))).toEqual(only({ rows: 2, known: 2 }))
    expect(granted(await recheck(callOf(store))).differences).toEqual([])
  })

  test('without it, and from another source, nothing is guessed', async () => {
    expect(counts(await taken(THEIRS))).toEqual(only({ rows: 2, refused: 2 }))
    granted(await save(WRITES))
    expect(counts(await taken(THEIRS, 'South'))).toEqual(only({ rows: 2, refused: 2 }))
    expect(counts(await taken(THEIRS, null))).toEqual(only({ rows: 2, refused: 2 }))
    expect(counts(await taken(THEIRS, 'North', true))).toEqual(only({ rows: 2, filed: 2 }))
  })

  test('a row that waits can be read again by filing it; one that was filed stays what it was read as', async () => {
    const file = csv('r.csv', [resultRow({ value: '14,2', accession: 'A1' }), resultRow({ value: '9.75', accession: 'A2' })])
    const report = await taken(file)
    expect(counts(report)).toEqual(only({ rows: 2, filed: 1, held: 1 }))
    granted(await save({ source: 'North', decimalSign: 'comma' }))
    const [row] = store.reader.heldQueue()
    if (row === undefined) throw new Error('nothing waits')
    expect(row.fields.value).toBe('14,2')
    granted(await resolveHeld(callOf(store), row.id, 'file', 'its source writes a comma'))
    expect(valuesOf(store).toSorted()).toEqual(['14,2', '9.75'])
    expect(granted(await readReport(callOf(store), report.fileId ?? 0)).rows).toBe(2)
  })

  test('rows wait as received, whatever a profile made of them', async () => {
    granted(await save(WRITES))
    await taken(csv('r.csv', [resultRow({ collected_at: '26.10.2025 2:30', value: '14,2' })]))
    expect(store.reader.heldQueue()).toMatchObject([
      { reason: 'time-twice', collectedOn: '2025-10-26', fields: { collected_at: '26.10.2025 2:30', value: '14,2' } },
    ])
  })
})

describe('saving', () => {
  test('versions are kept, with who, when, why and what changed; the log tells it without the reason', async () => {
    granted(await save({ source: 'North', decimalSign: 'comma' }, 'physician'))
    granted(await save(WRITES))
    const { version, versions, says } = granted(await readSource(callOf(store, 'navigator'), 'North'))
    expect(version).toBe(2)
    expect(says).toContainEqual({ field: 'decimalSign', asks: 'Decimal sign', says: 'a comma' })
    expect(versions.map((one) => [one.version, one.madeBy, one.reason, one.differences.map(({ field }) => field)])).toEqual([
      [2, 'a administrator', 'as its manual says', ['dayOrder', 'timeZone', 'units.33358-3']],
      [1, 'a physician', 'as its manual says', ['decimalSign']],
    ])
    const { rows } = store.reader.trailPage({ actor: null, limit: 2, offset: 0 })
    expect(rows.map(({ action, object, objectVersion }) => [action, object, objectVersion])).toEqual([
      ['source-profile-saved', 'source North', 2],
      ['source-profile-saved', 'source North', 1],
    ])
    expect(rows[0]?.beforeHash).toBe(rows[1]?.afterHash)
    expect(JSON.stringify(rows)).not.toContain('manual')
  })

  test('whether a source adds patients is the administrator’s alone', async () => {
    const trusting = { source: 'North', addsPatients: true }
    expect(await save(trusting, 'physician')).toMatchObject({ ok: false, kind: 'not-allowed', reason: expect.stringContaining('administrator') })
    expect(logged(store).at(-1)).toMatchObject({ role: 'physician', action: 'access-refused' })
    granted(await save(trusting))
    // A physician changes something else of it, and cannot take the trust away in passing.
    granted(await save({ ...trusting, decimalSign: 'comma' }, 'physician'))
    expect(await save({ source: 'North', decimalSign: 'comma' }, 'physician')).toMatchObject({ kind: 'not-allowed' })
    expect(store.reader.profileOfSource('North')?.version).toBe(2)
  })

  test('nothing changed, no reason, or another version meanwhile: refused, nothing kept', async () => {
    expect(await save({ source: 'North' })).toMatchObject({ ok: false, reason: expect.stringContaining('Nothing is changed') })
    const call = callOf(store)
    expect(await saveProfile(call, { given: WRITES, reason: ' ' })).toMatchObject({ ok: false, fields: [{ field: 'reason' }] })
    granted(await save({ source: 'North', decimalSign: 'comma' }))
    for (const basedOn of [null, 7]) {
      expect(await saveProfile(call, { given: WRITES, reason: 'a test', basedOn })).toMatchObject({ reason: expect.stringContaining('meanwhile') })
    }
    expect(granted(await saveProfile(call, { given: WRITES, reason: 'a test', basedOn: 1 })).version).toBe(2)
  })

  test('a unit may be that of a code somebody decided about, and must convert for what it stands for', async () => {
    const hb = { source: 'North', units: { HB: 'g/dL' } }
    expect(await save(hb)).toMatchObject({ fields: [{ field: 'units.HB', says: expect.stringContaining('names nothing') }] })
    const mapping = { source: 'North', kind: 'code', received: 'HB', ofCode: null, meaning: '718-7', reason: 'a test' } as const
    await store.record(callOf(store), (tx) => ({
      value: tx.insertMapping({ ...mapping, madeBy: 'a', madeAt: callOf(store).now, confirmedBy: null }),
      events: [{ action: 'sign-out' }],
    }))
    expect(await save({ source: 'North', units: { HB: 'mm' } })).toMatchObject({ fields: [{ field: 'units.HB' }] })
    granted(await save(hb))
    const [report] = [await taken(csv('r.csv', [resultRow({ code: 'HB', value: '9', unit: '' })]))]
    expect(counts(report)).toEqual(only({ rows: 1, filed: 1 }))
  })
})

describe('before it is saved', () => {
  test('the rows that wait are read with it, and nothing is changed', async () => {
    await taken(
      csv('r.csv', [resultRow({ value: '14,2' }), resultRow({ accession: 'A2', code: 'HB' }), resultRow({ accession: 'A3', patient_id: 'P9' })]),
    )
    const before = logged(store).length
    const tried = granted(await tryProfile(callOf(store, 'physician'), { source: 'North', decimalSign: 'comma' }))
    expect(tried).toMatchObject({ waiting: 3, tried: 3, couldBeFiled: 1 })
    expect(tried.rows[0]).toEqual({
      fileName: 'r.csv',
      line: 2,
      reasonNow: 'decimal-comma',
      stays: null,
      read: [{ column: 'value', text: '14,2', as: '14.2' }],
    })
    expect(tried.rows.slice(1).map(({ stays }) => stays)).toEqual(['value-unreadable', 'value-unreadable'])
    expect(store.reader.heldQueue()).toHaveLength(3)
    expect(logged(store)).toHaveLength(before)
  })

  test('a preview tells differences, examples, what codes stand for, and everything that is wrong', async () => {
    const shown = granted(await previewProfile(callOf(store), { source: 'North', decimalSign: 'comma', units: { '718-7': 'g/dL' } }))
    expect(shown.differences.map(({ field }) => field)).toEqual(['decimalSign', 'units.718-7'])
    expect(shown.examples[0]).toEqual({ text: '12,5', says: 'read as 12.5' })
    expect(shown.codes).toEqual([{ code: '718-7', analyte: 'haemoglobin' }])
    const wrong = granted(await previewProfile(callOf(store), { source: 'North', timeZone: 'Mars', decimalSign: ';', units: { x: 'g/L' } }))
    expect(wrong.problems.map(({ field }) => field)).toEqual(['decimalSign'])
    expect(wrong.codes).toEqual([{ code: 'x', analyte: null }])
    expect(granted(await previewProfile(callOf(store), null)).problems).toMatchObject([{ field: 'file' }])
  })
})

test('sources are those that files, profiles and mappings name, with what came from them', async () => {
  await taken(csv('r.csv', [resultRow(), resultRow({ accession: 'A2', value: '1,2' })]))
  granted(await save({ source: 'South', dayOrder: 'day-first' }))
  expect(granted(await readSources(callOf(store, 'navigator')))).toMatchObject([
    { source: 'North', profile: null, files: 1, rows: 2, held: 1, waiting: 1 },
    { source: 'South', profile: { version: 1, says: ['Order of a date: day, month, year'] }, files: 0, waiting: 0, lastReceivedAt: null },
    { source: 'tests', profile: null, files: 1, held: 0 },
  ])
  expect(granted(await readSource(callOf(store), ' North ')).files).toMatchObject([{ fileName: 'r.csv', rows: 2, held: 1 }])
  expect(granted(await readSource(callOf(store), 'nobody yet'))).toMatchObject({ version: null, files: [], versions: [] })
  expect(await readSource(callOf(store), ' ')).toMatchObject({ ok: false, kind: 'not-found' })
})
