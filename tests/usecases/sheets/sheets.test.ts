import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { day } from '../../../lib/time/index.ts'
import {
  type Call,
  endMerge,
  excludeResult,
  openEmergency,
  openSheetAt,
  type PreviewWish,
  previewSheet,
  printSheet,
  readGlossary,
  readSheetsAt,
  releaseSheet,
  withdrawSheet,
} from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { withoutGuards } from '../../store/guards.ts'
import { fromOutside } from '../../store/outside.ts'
import { callOf, granted, later, logged } from '../accounts/persons.ts'
import { courseRows, csv, patientRow, resultRow, take } from '../clinic.ts'
import { resultId, written } from '../decisions/damaged.ts'
import { inSession } from '../emergency/closed.ts'
import { join } from '../merges/joined.ts'

let store: Store
let url: string
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, url, dispose } = await freshStore())
  await take(store, [
    csv('patients.csv', [patientRow({ family_name: '', given_name: '' }), patientRow({ patient_id: 'P2', family_name: 'Hazel', given_name: 'Ann' })]),
    csv('course.csv', [...courseRows(), ...courseRows('P2')]),
    csv('results.csv', [
      resultRow({ collected_at: '2024-01-18', value: '30', accession: 'A0' }),
      resultRow(),
      resultRow({ patient_id: 'P2', value: '77.5', accession: 'B1' }),
    ]),
  ])
})
afterEach(() => dispose())

const physician = (name = 'a physician'): Call => {
  const call = callOf(store, 'physician')
  return { ...call, actor: { ...call.actor, name } }
}
const nurse = () => callOf(store, 'navigator')
const OWN = 'Please come again in two weeks.'
const WISH: PreviewWish = { patientId: 'P1', chosen: ['serum-m-protein'], own: OWN, visitOn: null }
const at = (patientId = 'P1') => store.reader.patientAddress(patientId)

/** Shows a draft and releases what was shown. */
async function released(wish: PreviewWish = WISH, call = physician()): Promise<number> {
  const { digest, afterSheet } = granted(await previewSheet(call, wish))
  return granted(await releaseSheet(call, { ...wish, digest, afterSheet })).sheetId
}
const open = (sheetId: number, call = nurse(), patientId = 'P1') => openSheetAt(call, at(patientId), sheetId)

describe('a draft', () => {
  test('is shown to a physician with the usual tests and its reading level, and to a nurse not at all', async () => {
    const { draft, offers, released: none } = granted(await readSheetsAt(physician(), at()))
    expect([draft?.chosen, draft?.level.isWithin, draft?.afterSheet, none]).toEqual([
      ['serum-m-protein', 'involved-light-chain', 'haemoglobin', 'creatinine'],
      true,
      0,
      [],
    ])
    expect(offers.find((offer) => offer.test === 'serum-m-protein')).toMatchObject({ isMeasured: true, isUsual: true })
    expect(granted(await readSheetsAt(nurse(), at())).draft).toBe(null)
    expect(logged(store).slice(-2)).toMatchObject([{ action: 'sheet-drafted' }, { action: 'patient-opened' }])
  })

  test('has own words on one line, counted in the level, with the words a reader may stumble over', async () => {
    const plain = granted(await previewSheet(physician(), WISH))
    const own = 'Notwithstanding radiological\r\nreevaluation, relapse probabilities remain.'
    const hard = granted(await previewSheet(physician(), { ...WISH, own }))
    expect(hard.sheet.own).toBe('Notwithstanding radiological reevaluation, relapse probabilities remain.')
    expect(hard.hardWords).toEqual(['relapse', 'probabilities'])
    expect(hard.level.grade ?? 0).toBeGreaterThan(plain.level.grade ?? 0)
  })

  test.each<[string, Partial<PreviewWish>, RegExp]>([
    ['no test', { chosen: [] }, /at least one test/],
    ['only tests that are not offered', { chosen: ['kappa-light-chain'] }, /at least one test/],
    ['own words of two letters', { own: 'ab' }, /^What you typed is missing/],
    ['own words that go on', { own: 'x'.repeat(501) }, /500 are the most/],
    ['a visit in the past', { visitOn: day('2026-11-24') }, /today, 2026-11-25, or later/],
  ])('with %s is refused', async (_, changes, reason) => {
    expect(await previewSheet(physician(), { ...WISH, ...changes })).toMatchObject({
      ok: false,
      kind: 'invalid',
      reason: expect.stringMatching(reason),
    })
  })
})

describe('a release', () => {
  test('keeps the sheet word for word, whatever comes later, and says what came', async () => {
    const sheetId = await released()
    const before = granted(await open(sheetId))
    expect(before).toMatchObject({ releasedBy: 'a physician', releasedOn: '2026-11-25', withdrawn: null, ofOtherRecords: false })
    expect(before.changed).toEqual({ tests: [], identity: false })
    expect(before.sheet.own).toBe(OWN)
    await take(store, [csv('later.csv', [resultRow({ collected_at: '2026-11-20', value: '9.5', accession: 'A2' })])])
    const after = granted(await open(sheetId))
    expect(after.sheet).toEqual(before.sheet)
    expect(after.changed.tests).toEqual(['M-protein in your blood'])
    expect(after.revisionNow).toBeGreaterThan(after.revision)
  })

  test('says so where a value was excluded, and where the name is another one', async () => {
    const sheetId = await released()
    granted(await excludeResult(physician(), { patientId: 'P1', resultId: resultId(store, '14.2'), reason: 'Drawn above a drip' }))
    await take(store, [csv('named.csv', [patientRow({ family_name: 'Birch', given_name: 'Eve' })])])
    expect(granted(await open(sheetId)).changed).toEqual({ tests: ['M-protein in your blood'], identity: true })
  })

  test('is of what was seen: a result that came meanwhile refuses it, and nothing is kept', async () => {
    const { digest, afterSheet } = granted(await previewSheet(physician(), WISH))
    await take(store, [csv('later.csv', [resultRow({ collected_at: '2026-11-20', value: '9.5', accession: 'A2' })])])
    expect(await releaseSheet(physician(), { ...WISH, digest, afterSheet })).toMatchObject({
      ok: false,
      reason: expect.stringMatching(/another one by now/),
    })
    expect(store.reader.sheetsOf(['P1'])).toEqual([])
  })

  test('tells the second of two that the first has released one', async () => {
    const [one, two] = [granted(await previewSheet(physician('one'), WISH)), granted(await previewSheet(physician('two'), WISH))]
    granted(await releaseSheet(physician('one'), { ...WISH, ...one }))
    expect(await releaseSheet(physician('two'), { ...WISH, ...two })).toMatchObject({
      ok: false,
      kind: 'invalid',
      reason: 'Sheet 1 was released meanwhile: look at it first. What you typed stands here.',
    })
    expect(store.reader.sheetsOf(['P1'])).toHaveLength(1)
  })

  test('is refused to a nurse, with its entry', async () => {
    const { digest, afterSheet } = granted(await previewSheet(physician(), WISH))
    expect(await releaseSheet(nurse(), { ...WISH, digest, afterSheet })).toMatchObject({ ok: false, kind: 'not-allowed' })
    expect(logged(store).at(-1)).toMatchObject({ action: 'access-refused', outcome: 'failure' })
  })

  test('has neither its words nor its values in the log', async () => {
    const sheetId = await released()
    granted(await withdrawSheet(physician(), { patientId: 'P1', sheetId, reason: 'Given to nobody yet' }))
    const events = store.reader
      .trailPage({ actor: null, limit: 100, offset: 0 })
      .rows.map((row) => JSON.stringify(row))
      .join()
    expect(events).toContain('sheet-withdrawn')
    expect(events).not.toMatch(/two weeks|nobody yet|14\.2/)
  })
})

describe('a released sheet', () => {
  test('is opened in the log before it is answered, and printed after its entry', async () => {
    const sheetId = await released()
    granted(await open(sheetId))
    granted(await printSheet(nurse(), { patientId: 'P1', sheetId }))
    expect(
      logged(store)
        .slice(-3)
        .map(({ action }) => action),
    ).toEqual(['sheet-released', 'sheet-opened', 'sheet-printed'])
    expect(granted(await readSheetsAt(nurse(), at())).released.map(({ sheetId: id }) => id)).toEqual([sheetId])
  })

  test('is withdrawn once, with a reason, by a physician; it stays to be read and is not printed', async () => {
    const sheetId = await released()
    const wish = { patientId: 'P1', sheetId, reason: 'A newer result came' }
    expect(await withdrawSheet(nurse(), wish)).toMatchObject({ ok: false, kind: 'not-allowed' })
    expect(await withdrawSheet(physician(), { ...wish, reason: '' })).toMatchObject({ ok: false, kind: 'invalid' })
    granted(await withdrawSheet(physician('one'), wish))
    expect(await withdrawSheet(physician('two'), wish)).toMatchObject({ ok: false, reason: `Sheet ${sheetId} was withdrawn by one already.` })
    expect(granted(await open(sheetId)).withdrawn).toEqual({ by: 'one', on: '2026-11-25', reason: 'A newer result came' })
    expect(await printSheet(nurse(), { patientId: 'P1', sheetId })).toMatchObject({ ok: false, kind: 'invalid' })
  })

  test('is told on the next one where its value was corrected', async () => {
    await released()
    await take(store, [csv('corrected.csv', [resultRow({ value: '4.2', status: 'corrected' })])])
    const { sheet } = granted(await previewSheet(physician(), WISH))
    expect(sheet.items[0]?.change.join(' ')).toContain('Your sheet of 25 November 2026 said 14.2 g/L for 1 June 2026. The lab has put that right')
  })

  test('that was changed outside the program is not shown', async () => {
    const sheetId = await released()
    const db = fromOutside(url)
    expect(() => db.exec("UPDATE patient_sheet SET content = replace(content, '14.2', '1.2')")).toThrow(/never changed/)
    expect(() => db.exec('DELETE FROM patient_sheet')).toThrow(/never removed/)
    expect(() =>
      db.exec(
        'INSERT INTO patient_sheet SELECT 9, patient_id, revision, record_ids, content, content_sha256, released_by, released_at, NULL, NULL, NULL FROM patient_sheet',
      ),
    ).toThrow(/follows the last one/)
    withoutGuards(db, () => db.exec("UPDATE patient_sheet SET content = replace(content, '14.2', '1.2')"))
    db.close()
    expect(await open(sheetId)).toMatchObject({ ok: false, kind: 'unavailable', reason: expect.stringMatching(/not what was released/) })
  })

  test('of somebody else is nobody’s: not opened, printed or withdrawn', async () => {
    const sheetId = await released()
    const before = JSON.stringify(written(store))
    for (const asked of [
      open(sheetId, nurse(), 'P2'),
      printSheet(nurse(), { patientId: 'P2', sheetId }),
      withdrawSheet(physician(), { patientId: 'P2', sheetId, reason: 'Not theirs' }),
    ])
      expect(await asked).toEqual({ ok: false, kind: 'not-found', reason: `This patient has no sheet with the number ${sheetId}.` })
    expect(JSON.stringify(written(store))).toBe(before)
  })
})

describe('joined records', () => {
  const merged = async () => {
    await take(store, [csv('p3.csv', [patientRow({ patient_id: 'P3', family_name: '', given_name: '' })])])
    await take(store, [csv('r3.csv', [resultRow({ patient_id: 'P3', code: '718-7', value: '118', accession: 'C1' })])])
    return join(store, 'P3')
  }

  test('have one list of sheets', async () => {
    const sheetId = await released()
    await merged()
    expect(granted(await readSheetsAt(nurse(), at())).released).toHaveLength(1)
    expect(granted(await open(sheetId)).ofOtherRecords).toBe(false)
  })

  test('read apart again, a sheet made of both is not for handing out', async () => {
    const mergeId = await merged()
    const sheetId = await released({ ...WISH, chosen: ['serum-m-protein', 'haemoglobin'] })
    granted(await endMerge(physician(), { mergeId, reason: 'Two persons after all' }))
    const opened = granted(await open(sheetId))
    expect([opened.ofOtherRecords, opened.changed.tests]).toEqual([true, ['Haemoglobin (red blood)']])
    expect(await printSheet(nurse(), { patientId: 'P1', sheetId })).toMatchObject({ ok: false, kind: 'invalid' })
  })
})

describe('a closed record', () => {
  beforeEach(async () => {
    await released()
    await take(store, [csv('left.csv', [{ patient_id: 'P1', on: '2026-11-20', event: 'left', reason: 'transferred' }])])
  })

  test('opens no sheet and takes none', async () => {
    for (const asked of [
      open(1),
      readSheetsAt(physician(), at()),
      previewSheet(physician(), WISH),
      releaseSheet(physician(), { ...WISH, digest: 'a', afterSheet: 1 }),
      withdrawSheet(physician(), { patientId: 'P1', sheetId: 1, reason: 'Closed' }),
    ])
      expect(await asked).toMatchObject({ ok: false, kind: 'not-allowed', closed: true })
  })

  test('in an emergency view is read without a draft, and the entry names the view', async () => {
    const call = inSession(store, 'physician', later(0))
    const { emergencyId } = granted(await openEmergency(call, { patientId: 'P1', reason: 'Seen tonight in the emergency room' }))
    const page = granted(await readSheetsAt(call, at()))
    expect([page.draft, page.emergency?.emergencyId, page.released.length]).toEqual([null, emergencyId, 1])
    granted(await open(1, call))
    expect(store.reader.openedInEmergency(emergencyId)).toHaveLength(2)
    expect(await previewSheet(call, WISH)).toMatchObject({ ok: false, closed: true })
    expect(await releaseSheet(call, { ...WISH, digest: 'a', afterSheet: 1 })).toMatchObject({ ok: false, kind: 'not-allowed' })
  })
})

test('the glossary is for everybody who is signed in, and no entry of the log', async () => {
  const before = logged(store).length
  for (const role of ['navigator', 'physician', 'quality', 'administrator'] as const)
    expect(granted(await readGlossary(callOf(store, role))).map(({ term }) => term)).toContain('M-protein')
  expect(logged(store)).toHaveLength(before)
})
