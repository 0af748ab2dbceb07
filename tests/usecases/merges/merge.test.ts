import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Role } from '../../../lib/access/index.ts'
import type { Store } from '../../../lib/store/index.ts'
import {
  type Call,
  compareRecords,
  confirmMerge,
  declineMerge,
  endMerge,
  heldRows,
  listDocument,
  openPatient,
  patientDocument,
  patientMerges,
  proposeMerge,
  readMerges,
  readTrail,
  recheck,
  renewStandings,
  resolveHeld,
  showList,
  tryPlan,
} from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { refuseRows } from '../../store/guards.ts'
import { fromOutside } from '../../store/outside.ts'
import { callOf, granted, logged } from '../accounts/persons.ts'
import { courseRows, csv, patientRow, resultRow, take, valuesOf } from '../clinic.ts'
import { join, REASON, stored, twoRecords } from './joined.ts'

let store: Store
let url: string
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, url, dispose } = await freshStore())
  await take(store, [
    ...twoRecords(),
    csv('results.csv', [resultRow(), resultRow({ patient_id: 'P2', collected_at: '2026-08-01', accession: 'A2', value: '19.8' })]),
  ])
})
afterEach(() => dispose())

const as = (role: Role, name = `a ${role}`): Call => ({ ...callOf(store, role), actor: { ...callOf(store, role).actor, name } })
const propose = (fromId = 'P2', intoId = 'P1', call = as('navigator')) => proposeMerge(call, { fromId, intoId, reason: REASON })
const confirm = (mergeId = 1, call = as('physician')) => confirmMerge(call, { mergeId })
const end = (mergeId = 1, reason = 'Two people after all') => endMerge(as('physician'), { mergeId, reason })
const QUERY = { window: null, phase: null, clinician: null, rule: null, sort: 'urgency', descending: false, page: 1, pageSize: 10 } as const

describe('proposed', () => {
  test('it changes nothing; confirmed by somebody else, the two are one patient everywhere', async () => {
    const before = stored(url)
    expect(granted(await propose())).toEqual({ mergeId: 1 })
    expect(stored(url)).toEqual(before)
    expect(valuesOf(store)).toEqual(['14.2'])
    expect(granted(await confirm()).sentence).toBe('Record P2 is read as part of patient P1 from now on.')

    expect([valuesOf(store, 'P1'), valuesOf(store, 'P2')]).toEqual([
      ['14.2', '19.8'],
      ['14.2', '19.8'],
    ])
    const { patients } = granted(await listDocument(callOf(store), null))
    expect(patients.map(({ patientId }) => patientId)).toEqual(['P1'])
    expect(granted(await listDocument(callOf(store), callOf(store).today)).patients).toHaveLength(1)
    const page = granted(await showList(as('navigator'), QUERY))
    expect([page.followed, page.matching, page.rows.map((row) => row.patientId)]).toEqual([1, 1, ['P1']])
    expect([store.reader.patientIds(), store.reader.followedPatientIds()]).toEqual([['P1'], ['P1']])
    expect(store.reader.standings().map(({ patientId }) => patientId)).toEqual(['P1'])
    expect(granted(await recheck(callOf(store)))).toEqual({ patients: 1, differences: [] })
    expect(await renewStandings(callOf(store))).toBe(0)
    const wish = { kind: 'changes', wish: { changes: { 'treatment.0.every': { days: 21 } }, from: '2026-12-01', basedOn: 1 } } as const
    const tried = await tryPlan(as('physician'), wish)
    expect(tried.ok ? tried.value.evaluated : tried.reason).toBe(1)
  })

  test('by either identifier the answer is the kept patient', async () => {
    await join(store)
    const [kept, other] = [granted(await patientDocument(callOf(store), 'P1', null)), granted(await patientDocument(callOf(store), 'P2', null))]
    expect(other).toEqual(kept)
    expect([kept.patientId, kept.markers['serum-m-protein'].samples]).toEqual(['P1', 2])
    expect(granted(await openPatient(as('navigator'), 'P2')).patientId).toBe('P1')
    const opened = store.reader.trailPage({ actor: null, limit: 1, offset: 0 }).rows[0]
    expect([opened?.action, opened?.patientId]).toEqual(['patient-opened', 'P1'])
  })

  test.each<[string, string, string, RegExp]>([
    ['itself', 'P1', 'P1', /cannot be joined to itself/],
    ['nobody', 'P9', 'P1', /No patient has the number "P9"/],
    ['nobody kept', 'P1', 'P9', /No patient has the number "P9"/],
    ['another day of birth', 'P3', 'P1', /dates of birth do not agree, 1950-03-13 and 1950-03-12/],
    ['the other sex', 'P4', 'P1', /One record says male, the other female/],
  ])('%s is refused, with the reason, and nothing is written', async (_, from, into, reason) => {
    await take(store, [csv('more.csv', [patientRow({ patient_id: 'P3', birth_date: '1950-03-13' }), patientRow({ patient_id: 'P4', sex: 'male' })])])
    const before = [stored(url), store.reader.trailHead()]
    expect(await propose(from, into)).toMatchObject({ ok: false, reason: expect.stringMatching(reason) })
    expect([stored(url), store.reader.trailHead(), store.reader.merges()]).toEqual([...before, []])
  })

  test('a year of birth agrees with a day in it, and the day counts', async () => {
    await take(store, [csv('more.csv', [patientRow({ patient_id: 'P5', birth_date: '1950' })])])
    await join(store, 'P1', 'P5')
    expect(granted(await openPatient(as('navigator'), 'P5')).birthDate).toBe('1950-03-12')
  })

  test('the same two records wait once, whichever way round; a reason has to be typed', async () => {
    granted(await propose())
    for (const [from, into] of [
      ['P2', 'P1'],
      ['P1', 'P2'],
    ] as const) {
      expect(await propose(from, into)).toMatchObject({
        ok: false,
        reason: 'Merge 1 of these two records, proposed by a navigator, waits to be confirmed already.',
      })
    }
    expect(await proposeMerge(as('navigator'), { fromId: 'P2', intoId: 'P1', reason: ' ' })).toMatchObject({
      reason: expect.stringContaining('The reason is missing'),
    })
    granted(await declineMerge(as('navigator'), { mergeId: 1, reason: '' }))
    expect(granted(await propose('P1', 'P2'))).toEqual({ mergeId: 2 })
  })
})

describe('confirming', () => {
  test('is for somebody else, whatever the role and however the name is written', async () => {
    granted(await propose('P2', 'P1', as('navigator', 'Sam')))
    for (const call of [as('navigator', 'Sam'), as('physician', 'sam'), { ...callOf(store), actor: { ...callOf(store).actor, name: 'SAM' } }]) {
      expect(await confirm(1, call)).toMatchObject({ ok: false, reason: 'Merge 1 was proposed by Sam: somebody else has to confirm it.' })
    }
    expect((await confirm(1, as('navigator', 'Alex'))).ok).toBe(true)
    const db = fromOutside(url)
    expect(db.value('SELECT decided_by FROM patient_merge')).toBe('Alex')
    db.close()
  })

  test.each([
    ['name', { family_name: 'Birch' }],
    ['birth date', { birth_date: '1950' }],
  ])('is refused once the %s of one of them has changed since; proposed anew it can be', async (_, change) => {
    await take(store, [csv('before.csv', [patientRow({ patient_id: 'P6', birth_date: '1950-03' })])])
    granted(await propose('P6', 'P1'))
    await take(store, [
      csv('people.csv', [patientRow({ patient_id: 'P6', ...change, ...('birth_date' in change ? { birth_date: '1950-03-12' } : {}) })]),
    ])
    expect(await confirm()).toMatchObject({ ok: false, reason: expect.stringContaining('has changed since merge 1 was proposed') })
    expect(granted(await readMerges(as('physician'))).waiting[0]?.notToConfirm).toContain('has changed since')
    granted(await declineMerge(as('physician'), { mergeId: 1, reason: '' }))
    granted(await propose('P6', 'P1'))
    expect((await confirm(2)).ok).toBe(true)
  })

  test('makes no chain and no circle, of what was proposed before either', async () => {
    await take(store, [csv('more.csv', [patientRow({ patient_id: 'P3' })])])
    granted(await propose('P2', 'P1'))
    granted(await propose('P1', 'P3'))
    granted(await propose('P2', 'P3'))
    granted(await confirm(1))
    expect(await confirm(2)).toMatchObject({ ok: false, reason: expect.stringContaining('Record P2 is joined to P1, and records make no chain') })
    expect(await confirm(3)).toMatchObject({ ok: false, reason: 'Record P2 is joined to P1 already; that has to be ended first.' })
    expect(await propose('P3', 'P2')).toMatchObject({ ok: false, reason: expect.stringContaining('and records make no chain: name P1.') })
    granted(await declineMerge(as('physician'), { mergeId: 2, reason: '' }))
    granted(await propose('P3', 'P1'))
    granted(await confirm(4))
    expect(store.reader.loadHistory('P1')?.history.results).toHaveLength(2)
    expect(store.reader.patientIds()).toEqual(['P1'])
  })

  test('or declining happens once', async () => {
    granted(await propose())
    granted(await declineMerge(as('physician'), { mergeId: 1, reason: 'Two people' }))
    expect(await confirm()).toMatchObject({ ok: false, reason: 'Merge 1 was declined by a physician already.' })
    expect(await confirm(7)).toMatchObject({ ok: false, kind: 'not-found' })
    expect(await end()).toMatchObject({ ok: false, reason: 'Merge 1 is not in force.' })
    expect(store.reader.patientIds()).toEqual(['P1', 'P2'])
  })
})

describe('while joined', () => {
  test('rows for either record are filed there, show in the kept patient, and count in the revision of both', async () => {
    await join(store)
    const revisions = () => ['P1', 'P2'].map((id) => store.reader.patient(id)?.revision ?? 0)
    const [kept = 0, other = 0] = revisions()
    await take(store, [csv('r.csv', [resultRow({ patient_id: 'P2', collected_at: '2026-09-01', accession: 'A3', value: '21.1' })])])
    expect(valuesOf(store)).toEqual(['14.2', '19.8', '21.1'])
    expect(store.reader.versionsOfPatient('P2')).toHaveLength(2)
    expect(revisions()).toEqual([kept + 1, other + 1])
    expect(store.reader.standing('P1')?.historyRevision).toBe(kept + 1)
    await take(store, [csv('r.csv', [resultRow({ collected_at: '2026-10-01', accession: 'A4', value: '22.5' })])])
    expect(revisions()).toEqual([kept + 2, other + 1])
    expect(granted(await recheck(callOf(store))).differences).toEqual([])
  })

  test('a sample sent under both is one, and a correction sent under the other corrects', async () => {
    await join(store)
    await take(store, [csv('r.csv', [resultRow({ patient_id: 'P2' })])])
    expect(valuesOf(store)).toEqual(['14.2', '19.8'])
    await take(store, [csv('r.csv', [resultRow({ patient_id: 'P2', value: '15.9', status: 'corrected' })])])
    expect(valuesOf(store)).toEqual(['15.9', '19.8'])
    granted(await end())
    expect([valuesOf(store, 'P1'), valuesOf(store, 'P2')]).toEqual([['14.2'], ['15.9', '19.8']])
  })

  test('held rows of both wait on the kept patient; a correction that waits for an original of the other record corrects once a person files it', async () => {
    await join(store)
    await take(store, [csv('r.csv', [resultRow({ patient_id: 'P2', value: '15.9', status: 'corrected' })])])
    const [row] = granted(await heldRows(as('navigator')))
    expect([row?.patientId, row?.reason]).toEqual(['P2', 'correction-before-original'])
    const shown = granted(await patientDocument(callOf(store), 'P1', null))
    expect([shown.held, shown.findings.some(({ rule }) => rule === 'held-results')]).toEqual([1, true])
    granted(await resolveHeld(as('navigator'), row?.heldId ?? 0, 'file', 'Its original stands in the other record'))
    expect(valuesOf(store)).toEqual(['15.9', '19.8'])
    expect(granted(await patientDocument(callOf(store), 'P1', null)).held).toBe(0)
    expect(granted(await recheck(callOf(store))).differences).toEqual([])
  })

  test('what the records do not tell alike is said, with what counts', async () => {
    await take(store, [
      csv('people.csv', [
        patientRow({ family_name: 'Alder', weight_kg: '70' }),
        patientRow({ patient_id: 'P2', family_name: 'Birch', weight_kg: '64.0', status: 'transferred', status_on: '2025-01-01' }),
      ]),
      csv('course.csv', [
        { patient_id: 'P2', on: '2019-05-02', event: 'diagnosis', phase: 'mgus', line: '', regimen: '' },
        { patient_id: 'P2', on: '2024-03-01', event: 'line-start', phase: '', line: '1', regimen: 'lenalidomide' },
      ]),
      csv('r.csv', [resultRow({ patient_id: 'P2', value: '16' })]),
    ])
    const { differences, from, into, obstacle } = granted(await compareRecords(as('navigator'), { fromId: 'P2', intoId: 'P1' }))
    const said = [
      'The names differ; that of P1 is shown.',
      'The weights differ, 70 and 64 kg; that of P1 counts.',
      'P1 says followed, P2 says transferred on 2025-01-01: followed counts. A death in either record counts; else the patient is followed while one record says so.',
      'Both record a diagnosis, on 2019-05-02 and 2024-01-10: all stand in the course, as if one record held them.',
      'P1 records line start 1 on 2024-01-20 and P2 records line start 1 on 2024-03-01 with other details: that of P2, recorded last, counts.',
      'serum M-protein of 2026-06-01, accession A1: 16 g/L and 14.2 g/L are reported of one sample; 16 g/L, the later report, counts.',
    ]
    expect(differences).toEqual(said)
    expect([obstacle, from, into]).toMatchObject([
      null,
      { patientId: 'P2', name: 'Birch', results: 2, events: 2, held: 0, firstOn: '2019-05-02', lastOn: '2026-08-01', status: 'transferred' },
      { patientId: 'P1', name: 'Alder', results: 1, events: 2, firstOn: '2024-01-10', lastOn: '2026-06-01' },
    ])
    await join(store)
    expect(granted(await patientMerges(as('navigator'), 'P1')).differences).toEqual(said)
    expect(valuesOf(store)).toEqual(['16', '19.8'])
  })

  test('a row of patients that makes them disagree later ends nothing, and is said', async () => {
    await join(store)
    await take(store, [
      csv('people.csv', [patientRow({ patient_id: 'P2', birth_date: '1971-01-01' }), patientRow({ patient_id: 'P1', sex: 'male' })]),
    ])
    for (const { heldId } of granted(await heldRows(as('navigator'))))
      granted(await resolveHeld(as('navigator'), heldId, 'file', 'The register says so'))
    expect(granted(await patientMerges(as('navigator'), 'P1')).differences).toEqual([
      'Born 1950-03-12 in one, 1971-01-01 in the other, which do not agree; that of P1 counts. Are they one person?',
      'One says male, the other female; that of P1 counts. Are they one person?',
    ])
    expect([granted(await openPatient(as('navigator'), 'P1')).birthDate, valuesOf(store)]).toEqual(['1950-03-12', ['14.2', '19.8']])
    expect(granted(await recheck(callOf(store))).differences).toEqual([])
  })

  test('the merged record says where it went, the kept one what it took in', async () => {
    await join(store)
    const [kept, other] = [granted(await patientMerges(as('navigator'), 'P1')), granted(await patientMerges(as('navigator'), 'P2'))]
    expect([kept.joinedTo, kept.joined.map(({ fromId, reason, decidedBy }) => [fromId, reason, decidedBy])]).toEqual([
      null,
      [['P2', REASON, 'a physician']],
    ])
    expect([other.joinedTo?.intoId, other.joined]).toEqual(['P1', []])
    expect(await patientMerges(as('navigator'), 'P9')).toMatchObject({ ok: false, kind: 'not-found' })
  })
})

test('ended by one person with a reason: both are read apart again, and can be joined anew', async () => {
  const before = stored(url)
  await join(store)
  expect(await end(1, '  ')).toMatchObject({ ok: false, reason: expect.stringContaining('The reason is missing') })
  expect(granted(await end()).sentence).toBe('Records P2 and P1 are two patients again.')
  expect(stored(url)).toEqual(before)
  expect([valuesOf(store, 'P1'), valuesOf(store, 'P2')]).toEqual([['14.2'], ['19.8']])
  expect(granted(await recheck(callOf(store)))).toEqual({ patients: 2, differences: [] })
  expect(await end()).toMatchObject({ ok: false, reason: 'Merge 1 is not in force.' })
  expect(await join(store, 'P1', 'P2')).toBe(2)
  const page = granted(await readMerges(as('navigator')))
  expect([
    page.waiting,
    page.inForce.map(({ mergeId }) => mergeId),
    page.past.map(({ mergeId, state, endReason }) => [mergeId, state, endReason]),
  ]).toEqual([[], [2], [[1, 'ended', 'Two people after all']]])
})

test('the log tells who proposed, confirmed, declined and ended, without what was typed; quality is not told of whom', async () => {
  granted(await propose())
  granted(await compareRecords(as('navigator'), { fromId: 'P2', intoId: 'P1' }))
  granted(await readMerges(as('physician')))
  granted(await confirm())
  granted(await end())
  granted(await propose())
  granted(await declineMerge(as('physician'), { mergeId: 2, reason: 'Two people' }))
  const actions = logged(store).map(({ actor, action }) => `${actor} ${action}`)
  expect(actions.slice(-7)).toEqual([
    'a navigator merge-proposed',
    'a navigator records-compared',
    'a physician merges-shown',
    'a physician merge-confirmed',
    'a physician merge-ended',
    'a navigator merge-proposed',
    'a physician merge-declined',
  ])
  const rows = store.reader.trailPage({ actor: null, limit: 7, offset: 0 }).rows.toReversed()
  expect(rows.map(({ object }) => object)).toEqual(['merge 1', 'patients', 'merges', 'merge 1', 'merge 1', 'merge 2', 'merge 2'])
  expect(JSON.stringify(rows)).not.toMatch(/registered twice|Two people|1950/)
  expect([rows[3]?.beforeHash, rows[4]?.beforeHash]).toEqual([rows[0]?.afterHash, rows[3]?.afterHash])
  const quality = granted(await readTrail(as('quality'), null)).rows.slice(1, 8)
  expect(JSON.stringify(quality)).not.toMatch(/P1|P2/)
  const all = granted(await readTrail(as('administrator'), null)).rows.map(({ says }) => says)
  expect(all).toContain('Merge 1 of record P2 into patient P1 was confirmed: the two are read as one patient.')
  expect(store.reader.verifyTrail().firstBad).toBe(null)
})

test('when the log cannot be written, nothing is joined and nothing parted', async () => {
  const db = fromOutside(url)
  const broken = async (action: string, run: () => Promise<unknown>) => {
    const before = [stored(url), store.reader.merges(), valuesOf(store)]
    const takeAgain = refuseRows(db, { table: 'trail', says: 'the log is full', when: `NEW.action = '${action}'` })
    await expect(run()).rejects.toThrow('the log is full')
    takeAgain()
    expect([stored(url), store.reader.merges(), valuesOf(store)]).toEqual(before)
    await run()
  }
  await broken('merge-proposed', () => propose())
  await broken('merge-confirmed', () => confirm())
  await broken('merge-ended', () => end())
  db.close()
  expect(store.reader.mergesOf('P1').map(({ endedBy }) => endedBy)).toEqual(['a physician'])
})

test('a file that tells of both, and of the course, in one call', async () => {
  await join(store)
  const people = csv('people.csv', [patientRow({ clinician: 'Dr Alder' }), patientRow({ patient_id: 'P2', clinician: 'Dr Cedar' })])
  await take(store, [
    people,
    csv('course.csv', courseRows('P2')),
    csv(
      'r.csv',
      ['P1', 'P2'].map((id) => resultRow({ patient_id: id, collected_at: '2026-11-01', accession: `of ${id}`, value: '30' })),
    ),
  ])
  const view = granted(await openPatient(as('navigator'), 'P1'))
  expect([view.clinician, view.lines.map(({ number }) => number), view.results.length]).toEqual(['Dr Alder', [1], 4])
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
})
