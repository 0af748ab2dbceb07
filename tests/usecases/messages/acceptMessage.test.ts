import { afterEach, beforeEach, expect, test } from 'vitest'
import { openStore, type Store } from '../../../lib/store/index.ts'
import { acceptMessage, type Call, recheck } from '../../../lib/usecases/index.ts'
import { fileOf, msh, obr, obx, pid } from '../../intake/hl7/messages.ts'
import { bytesOf } from '../../intake/rows.ts'
import { freshStore } from '../../store/freshStore.ts'
import { refuseRows } from '../../store/guards.ts'
import { keepWriting } from '../../store/keepWriting.ts'
import { fromOutside } from '../../store/outside.ts'
import { REFUSED_CODE, REFUSED_NAME } from '../../store/refusals.ts'
import { callOf, granted, logged } from '../accounts/persons.ts'
import { courseRows, csv, patientRow, take, valuesOf } from '../clinic.ts'

let fresh: { store: Store; url: string; dispose: () => Promise<void> }
let store: Store
beforeEach(async () => {
  fresh = await freshStore()
  store = fresh.store
  await take(store, [csv('patients.csv', [patientRow()]), csv('course.csv', courseRows())])
})
afterEach(() => fresh.dispose())

const SENDER = { 3: 'LAB', 4: 'NORTH' }
const message = (id: string, value = '14.2', accession = 'A1') => fileOf(msh({ ...SENDER, 10: id }), pid(), obr({ 3: accession }), obx({ 5: value }))

/** What a sender hears: the code, the control id and the text of MSA; null where it hears nothing. */
async function answerTo(text: string, call: Call = callOf(store), source: string | null = 'North'): Promise<string[] | null> {
  const { acknowledgement } = granted(await acceptMessage(call, bytesOf(text), source))
  if (acknowledgement === null) return null
  const [, msa] = new TextDecoder().decode(acknowledgement.slice(1, -2)).split('\r')
  return msa?.split('|').slice(1) ?? []
}

const files = () => store.reader.recentFiles(100).toReversed().slice(2)
const actions = () => logged(store).map(({ action }) => action)
const KEY = { application: 'LAB', facility: 'NORTH', controlId: 'M1' }

test('AA: bytes, rows, standing, log row and control id are there, with source and address', async () => {
  const call = callOf(store)
  expect(await answerTo(message('M1'), { ...call, actor: { ...call.actor, address: '127.0.0.1' } })).toEqual([
    'AA',
    'M1',
    '1 rows: 1 filed, 0 known, 0 corrected, 0 held, 0 refused',
  ])
  const [file] = files()
  expect(file).toMatchObject({ name: 'HL7 message "M1" of "LAB", "NORTH"', source: 'North', kind: 'results', rowsInFile: 1, rows: 1, filed: 1 })
  expect(store.reader.fileBytes(file?.id ?? 0)?.toString()).toBe(message('M1'))
  expect(store.reader.acceptedMessage(KEY)).toEqual({ fileId: file?.id, sha256: file?.sha256 })
  const [latest] = store.reader.trailPage({ actor: null, limit: 1, offset: 0 }).rows
  expect(latest).toMatchObject({ action: 'intake', role: 'console', address: '127.0.0.1', object: `file ${file?.id}` })
  expect(valuesOf(store)).toEqual(['14.2'])
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
})

test('held, refused and corrected rows are accounted for: AA, with their numbers', async () => {
  await answerTo(message('M0'))
  const text = fileOf(
    msh({ ...SENDER }),
    ...[pid(), obr(), obx(), obx({ 11: 'C', 5: '15.0' }), obr({ 3: 'A2' }), obx({ 6: '' }), obr({ 3: 'A3', 7: '20260230' }), obx()],
    ...[pid({ 3: 'P9' }), obr({ 3: 'A4' }), obx()],
  )
  expect(await answerTo(text)).toEqual(['AA', 'M1', '5 rows: 0 filed, 1 known, 1 corrected, 2 held, 1 refused'])
  expect(store.reader.heldQueue().map(({ reason }) => reason)).toEqual(['unit-missing', 'unknown-patient'])
  expect(store.reader.refusedRows(files()[1]?.id ?? 0).map(({ reason }) => reason)).toEqual(['bad-date'])
  expect(await answerTo(fileOf(msh({ 10: 'M2' }), pid()))).toEqual(['AA', 'M2', '1 rows: 0 filed, 0 known, 0 corrected, 0 held, 1 refused'])
})

test('the same message again: AA, nothing filed again, logged', async () => {
  await answerTo(message('M1'))
  const [before] = files()
  for (let times = 0; times < 3; times++)
    expect(await answerTo(message('M1'))).toEqual(['AA', 'M1', `Accepted earlier as file ${before?.id}; nothing was filed again.`])
  expect(files()).toEqual([before])
  expect(actions().slice(-4)).toEqual(['intake', 'message-repeated', 'message-repeated', 'message-repeated'])
})

test('the same message with the time of sending written anew is the same', async () => {
  await answerTo(message('M1'))
  const [before] = files()
  const again = message('M1').replace('20260601120000+0200', '20260601120500+0200')
  expect(again).not.toBe(message('M1'))
  expect(await answerTo(again)).toEqual(['AA', 'M1', `Accepted earlier as file ${before?.id}; nothing was filed again.`])
  expect(files()).toEqual([before])
  // Any other time in it is content.
  expect(await answerTo(message('M1').replace('|20260601\r', '|20260602\r'))).toMatchObject(['AR', 'M1', {}])
})

test('the same message many times at once is filed once, each time acknowledged', async () => {
  const answers = await Promise.all(Array.from({ length: 12 }, () => answerTo(message('M1'))))
  expect(answers.map((answer) => answer?.[0])).toEqual(Array(12).fill('AA'))
  expect(files()).toHaveLength(1)
  expect(actions().filter((action) => action === 'message-repeated')).toHaveLength(11)
})

test('the same control id with other content is never dropped: AR, the bytes kept, the first message as it was', async () => {
  await answerTo(message('M1'))
  const [first] = files()
  expect(await answerTo(message('M1', '17.0', 'A2'))).toEqual(['AR', 'M1', expect.stringMatching(/^The control id was used before/)])
  expect(files()[1]).toMatchObject({ refusedWhole: { reason: 'hl7-control-id-used', sentence: expect.stringContaining(`(file ${first?.id})`) } })
  expect(store.reader.fileBytes(files()[1]?.id ?? 0)?.toString()).toBe(message('M1', '17.0', 'A2'))
  expect(store.reader.acceptedMessage(KEY)?.fileId).toBe(first?.id)
  expect([valuesOf(store), actions().at(-1)]).toEqual([['14.2'], 'intake-refused'])
  expect(await answerTo(message('M2', '17.0', 'A2'))).toMatchObject(['AA', 'M2', {}])
})

test('another sender may use the same control id', async () => {
  await answerTo(message('M1'))
  for (const header of [
    { 3: 'LAB', 4: 'SOUTH' },
    { 3: 'LAB^1.2^ISO', 4: 'NORTH' },
    { 3: '', 4: 'NORTH' },
  ])
    expect(await answerTo(fileOf(msh(header), pid(), obr(), obx()))).toMatchObject(['AA', 'M1', expect.stringContaining('1 rows: ')])
  expect(files()).toHaveLength(4)
})

test('refused: AR with the reason, the bytes kept; the control id is free for the message as it should be', async () => {
  const wrong = message('M1').replace('2.5.1', '2.1')
  expect(await answerTo(wrong)).toMatchObject(['AR', 'M1', expect.stringContaining('HL7 version "2.1"')])
  expect(await answerTo(message('M1').slice(0, -3))).toMatchObject(['AR', 'M1', expect.stringContaining('cut off')])
  expect(files().map(({ refusedWhole, rows }) => [refusedWhole?.reason, rows])).toEqual([
    ['hl7-version', 0],
    ['hl7-truncated', 0],
  ])
  expect(store.reader.fileBytes(files()[0]?.id ?? 0)?.toString()).toBe(wrong)
  expect(await answerTo(message('M1'))).toMatchObject(['AA', 'M1', {}])
})

test('a header that cannot be read: nobody is answered, the bytes are kept', async () => {
  const outcome = granted(await acceptMessage(callOf(store), bytesOf('MSH|^~\\'), null))
  expect(outcome).toEqual({ acknowledgement: null, isUnreadable: true, notAccepted: 'hl7-no-header' })
  expect(files()).toMatchObject([{ name: 'HL7 message without a readable header', refusedWhole: { reason: 'hl7-no-header' } }])
})

test('a sender that asks for no acknowledgement gets none, and its message is filed', async () => {
  const quiet = fileOf(msh({ 15: 'NE', 16: 'NE' }), pid(), obr(), obx())
  expect([await answerTo(quiet), valuesOf(store)]).toEqual([null, ['14.2']])
})

test.each([
  ['the log', 'trail'],
  ['a result', 'result'],
  ['a standing', 'standing'],
  ['the control id', 'hl7_message'],
])('AE when %s cannot be written: nothing of the message is kept, and it is filed when it comes again', async (_what, table) => {
  const outside = fromOutside(fresh.url)
  const takeAgain = refuseRows(outside, { table, says: 'no room' })
  const before = actions()
  expect(await answerTo(message('M1'))).toEqual(['AE', 'M1', 'The message could not be kept; nothing of it was filed. Send it again.'])
  expect([files(), valuesOf(store), actions(), store.reader.acceptedMessage(KEY)]).toEqual([[], [], before, null])
  const { notAccepted } = granted(await acceptMessage(callOf(store), bytesOf(message('M1')), null))
  expect(notAccepted).toBe(`not-kept: ${REFUSED_NAME} ${REFUSED_CODE}`)
  takeAgain()
  outside.close()
  expect(await answerTo(message('M1'))).toMatchObject(['AA', 'M1', {}])
  expect([files().length, valuesOf(store)]).toEqual([1, ['14.2']])
})

test('AE, not AR, when a refusal cannot be kept either', async () => {
  const outside = fromOutside(fresh.url)
  refuseRows(outside, { table: 'trail', says: 'the log is full' })
  outside.close()
  expect(await answerTo(message('M1').replace('2.5.1', '2.1'))).toMatchObject(['AE', 'M1', {}])
  expect(files()).toEqual([])
})

test('AE when another program keeps the database locked longer than is waited for', async () => {
  const impatient = await openStore(fresh.url, { patienceMs: 100 })
  const letGo = keepWriting(fresh.url)
  expect(await answerTo(message('M1'), callOf(impatient))).toEqual([
    'AE',
    'M1',
    'The database is busy; nothing of the message was kept. Send it again.',
  ])
  letGo()
  expect(await answerTo(message('M1'), callOf(impatient))).toMatchObject(['AA', 'M1', {}])
  await impatient.close()
})

test('an accepted message is never changed, forgotten or replaced', async () => {
  await answerTo(message('M1'))
  const outside = fromOutside(fresh.url)
  const columns = 'sending_application, sending_facility, control_id, sha256, file_id, accepted_at'
  expect(() => outside.exec("UPDATE hl7_message SET control_id = 'M2'")).toThrow('never changed')
  expect(() => outside.exec('DELETE FROM hl7_message')).toThrow('never forgotten')
  expect(() => outside.exec(`INSERT OR REPLACE INTO hl7_message (${columns}) SELECT ${columns} FROM hl7_message`)).toThrow('accepted once')
  outside.close()
})
