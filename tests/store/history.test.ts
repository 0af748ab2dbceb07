import { afterEach, beforeEach, expect, test } from 'vitest'
import type { CourseEvent, Measured, Patient } from '../../lib/results/index.ts'
import type { Store } from '../../lib/store/index.ts'
import { day, parseBirthDate, parseMoment } from '../../lib/time/index.ts'
import { decimal, exactly } from '../../lib/units/index.ts'
import { freshStore } from './freshStore.ts'
import { addPatient, CALL, FILE, newResult, TODAY } from './samples.ts'
import { countOf, rowsOf } from './tables.ts'

let fresh: { store: Store; url: string; dispose: () => Promise<void> }
beforeEach(async () => {
  fresh = await freshStore()
})
afterEach(() => fresh.dispose())

const SEEN = { action: 'patient-opened', patientId: 'P1' } as const

const VALUES: readonly Measured[] = [
  {
    kind: 'number',
    comparator: '<',
    kept: { low: decimal('0'), high: decimal('0.1') },
    printed: { low: decimal('0'), high: decimal('0.01') },
    printedUnit: 'g/dL',
  },
  { kind: 'number', comparator: '>', kept: { low: decimal('5000'), high: null }, printed: { low: decimal('5000'), high: null }, printedUnit: 'mg/L' },
  { kind: 'not-detected' },
  { kind: 'present', upTo: decimal('1') },
  { kind: 'present', upTo: null },
  {
    kind: 'immunofixation',
    reading: {
      reading: 'positive',
      bands: [
        { heavy: 'G', light: 'kappa' },
        { heavy: null, light: 'lambda' },
      ],
    },
  },
  { kind: 'immunofixation', reading: { reading: 'unread', text: 'see comment' } },
  { kind: 'none', reason: 'haemolysed' },
]

test('a text an older reader left unread is read again, so no reading grows old in the database', async () => {
  await fresh.store.record(CALL, (tx) => {
    const value = { kind: 'immunofixation', reading: { reading: 'unread', text: 'Immunofixation shows IgG kappa' } } as const
    tx.insertResultVersion(newResult('P1', addPatient(tx, 'P1'), '2026-01-01', { analyte: 'serum-immunofixation', value }), true)
    return { value: null, events: [SEEN] }
  })
  const [result] = fresh.store.reader.loadHistory('P1')?.history.results ?? []
  expect(result?.value).toEqual({ kind: 'immunofixation', reading: { reading: 'positive', bands: [{ heavy: 'G', light: 'kappa' }] } })
})

test('every kind of value comes back as it went in', async () => {
  await fresh.store.record(CALL, (tx) => {
    const fileId = addPatient(tx, 'P1')
    for (const [index, value] of VALUES.entries()) tx.insertResultVersion(newResult('P1', fileId, `2026-01-0${index + 1}`, { value }), true)
    return { value: null, events: [SEEN] }
  })
  const loaded = fresh.store.reader.loadHistory('P1')
  expect(loaded?.history.results.map((result) => result.value)).toEqual(VALUES)
})

test('a result keeps moment, limits and where it came from', async () => {
  const sent = { referenceHigh: { kept: decimal('26.4'), printed: decimal('2.64') }, reportedAt: parseMoment('2026-03-02T09:30+01:00') }
  await fresh.store.record(CALL, (tx) => {
    const fileId = addPatient(tx, 'P1')
    tx.insertResultVersion(newResult('P1', fileId, '2026-03-01T08:15+01:00', sent), true)
    return { value: null, events: [SEEN] }
  })
  const result = fresh.store.reader.loadHistory('P1')?.history.results[0]
  expect(result).toMatchObject(sent)
  expect(result?.collected).toEqual(parseMoment('2026-03-01T08:15+01:00'))
  expect(result?.provenance).toEqual({ fileId: 1, fileName: 'results.csv', line: 2, valueText: '1.42', unitText: 'g/dL' })
})

test('only the current version counts, all of them stay, and a withdrawn one takes the result back', async () => {
  await fresh.store.record(CALL, (tx) => {
    const fileId = addPatient(tx, 'P1')
    tx.insertResultVersion(newResult('P1', fileId, '2026-03-01'), true)
    const corrected = {
      version: 2,
      status: 'corrected',
      value: { kind: 'number', comparator: null, kept: exactly('15'), printed: exactly('1.5'), printedUnit: 'g/dL' },
    } as const
    tx.insertResultVersion(newResult('P1', fileId, '2026-03-01', corrected), true)
    tx.insertResultVersion(newResult('P1', fileId, '2026-04-01'), true)
    tx.insertResultVersion(newResult('P1', fileId, '2026-04-01', { version: 2, status: 'entered-in-error' }), true)
    return { value: null, events: [SEEN] }
  })
  const { reader } = fresh.store
  expect(reader.loadHistory('P1')?.history.results.map((result) => [result.collected.on, result.version])).toEqual([['2026-03-01', 2]])
  expect(reader.versionsOf('P1|33358-3|2026-03-01').map((stored) => [stored.result.version, stored.current])).toEqual([
    [1, false],
    [2, true],
  ])
  expect(reader.versionsOfPatient('P1')).toHaveLength(4)
})

const EVENTS: readonly CourseEvent[] = [
  { event: 'diagnosis', on: day('2020-01-01'), phase: 'active', heavyChain: 'G', lightChain: 'kappa' },
  { event: 'line-start', on: day('2020-02-01'), line: 1, regimen: ['bortezomib', 'dexamethasone'], intent: 'induction' },
  { event: 'imaging', on: day('2020-03-01'), modality: 'mri', lyticLesions: null, focalLesions5mm: 2, newLesions: 0, growthPercent: decimal('12.5') },
  { event: 'marrow', on: day('2020-04-01'), plasmaCellsPercent: decimal('60'), abnormalities: ['t(4;14)'], mrd: null },
  { event: 'line-end', on: day('2020-05-01'), line: 1 },
  { event: 'bone-agent', on: day('2020-06-01'), regimen: ['zoledronic acid'] },
  { event: 'phase', on: day('2020-07-01'), phase: 'amyloidosis' },
  { event: 'left', on: day('2020-08-01'), reason: 'transferred' },
]

test('every course event comes back as it went in', async () => {
  await fresh.store.record(CALL, (tx) => {
    const fileId = addPatient(tx, 'P1')
    for (const [index, event] of EVENTS.entries()) {
      tx.insertEventVersion({ patientId: 'P1', identity: `e${index}`, version: 1, event, fileId, line: index + 2 }, true)
    }
    return { value: null, events: [SEEN] }
  })
  expect(fresh.store.reader.loadHistory('P1')?.history.events).toEqual(EVENTS)
})

test('a held row is a notice of its patient until someone decides, and nobody decides twice', async () => {
  const held = {
    fileId: 1,
    line: 3,
    kind: 'results',
    patientId: 'P1',
    reason: 'unknown-code',
    sentence: 'The code is not known.',
    row: 'P1,x',
    fields: { patient_id: 'P1' },
    receivedAt: CALL.now,
    receivedOn: TODAY,
    collectedOn: null,
  } as const
  const id = await fresh.store.record(CALL, (tx) => ({ value: [addPatient(tx, 'P1'), ...tx.insertHeld([held])][1] ?? 0, events: [SEEN] }))
  expect(fresh.store.reader.loadHistory('P1')?.history.held).toEqual([{ id, receivedOn: TODAY, collectedOn: null }])
  const decision = { heldId: id, decision: 'refuse', reason: 'not ours', by: 'tester', at: CALL.now } as const
  const twice = await fresh.store.record(CALL, (tx) => ({ value: [tx.resolveHeld(decision), tx.resolveHeld(decision)], events: [SEEN] }))
  expect(twice).toEqual([true, false])
  expect(fresh.store.reader.loadHistory('P1')?.history.held).toEqual([])
  expect(fresh.store.reader.heldRow(id)?.resolved?.reason).toBe('not ours')
})

test('an updated patient keeps the row as it was', async () => {
  const birthDate = parseBirthDate('1960-02')
  if (birthDate === null) throw new Error('a birth date of the test cannot be read')
  const changed: Patient = {
    id: 'P1',
    familyName: "O'Brien",
    givenName: 'Null',
    birthDate,
    sex: 'female',
    weightKg: decimal('71.5'),
    clinician: 'C',
    status: 'died',
    statusOn: TODAY,
  }
  await fresh.store.record(CALL, (tx) => {
    const fileId = addPatient(tx, 'P1')
    tx.updatePatient(changed, { fileId, line: 9 }, CALL.now)
    return { value: tx.bumpRevision('P1'), events: [SEEN] }
  })
  expect(fresh.store.reader.patient('P1')).toEqual({ patient: changed, revision: 1, version: 2 })
  const [before] = rowsOf(fresh.url, 'patient_version')
  expect(JSON.parse(String(before?.row))).toMatchObject({ birth_date: '1960-02-01', status: 'followed', line: 2 })
  expect(fresh.store.reader.followedPatientIds()).toEqual([])
})

test('the bytes of a file are kept once, whatever its name', async () => {
  const ids = await fresh.store.record(CALL, (tx) => ({
    value: [tx.insertFile(FILE), tx.insertFile({ ...FILE, name: 'again.csv' })],
    events: [SEEN],
  }))
  expect(ids).toEqual([1, 2])
  expect(countOf(fresh.url, 'intake_file_bytes')).toBe(1)
  expect(fresh.store.reader.fileBytes(2)?.toString()).toBe('patient_id,collected_at\n')
})
