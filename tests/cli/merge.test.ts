import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, expect, test } from 'vitest'
import { folderOf, freshUrl } from '../store/freshStore.ts'
import { withoutGuards } from '../store/guards.ts'
import { fromOutside } from '../store/outside.ts'
import { csv, patientRow, type Row, resultRow } from '../usecases/clinic.ts'
import { listDocument, patientDocument } from './schema.ts'
import { json, lowmark } from './terminal.ts'

let url: string
beforeEach(async () => {
  url = freshUrl()
  await take('patients.csv', [patientRow(), patientRow({ patient_id: 'P2' })])
  await take('results.csv', [resultRow(), resultRow({ patient_id: 'P2', collected_at: '2026-08-01', accession: 'A2', value: '19.8' })])
})

async function take(name: string, rows: readonly Row[]): Promise<void> {
  const path = join(folderOf(url), name)
  writeFileSync(path, csv(name, rows).bytes)
  expect((await lowmark(url, 'intake', path)).status).toBe(0)
}

const propose = (...more: string[]) => lowmark(url, 'merge', 'propose', 'P2', 'P1', '--reason', 'Registered twice', ...more)

/** The console proposes as one person; here as if somebody else had. */
function proposedBySomebodyElse(): void {
  const db = fromOutside(url)
  withoutGuards(db, () => db.exec("UPDATE patient_merge SET proposed_by = 'somebody else'"))
  db.close()
}

test('proposed, confirmed and ended, each with one sentence or one JSON document', async () => {
  expect(await propose()).toMatchObject({
    status: 0,
    out: 'Merge 1 of record P2 into patient P1 is proposed; somebody else has to confirm it.\n',
    err: '',
  })
  expect(await lowmark(url, 'merge', 'confirm', '1')).toMatchObject({
    status: 1,
    out: '',
    err: expect.stringContaining('somebody else has to confirm it'),
  })
  proposedBySomebodyElse()
  expect(json(await lowmark(url, 'merge', 'confirm', '1', '--json'))).toEqual({
    mergeId: 1,
    sentence: 'Record P2 is read as part of patient P1 from now on.',
  })

  const { patients } = listDocument.parse(json(await lowmark(url, 'list', '--json')))
  expect(patients.map(({ patientId }) => patientId)).toEqual(['P1'])
  const kept = await lowmark(url, 'patient', 'P1', '--json')
  const other = await lowmark(url, 'patient', 'P2', '--json')
  expect([kept.err, other.err]).toEqual(['', 'Record P2 is joined to patient P1, who is shown.\n'])
  expect(other.out).toBe(kept.out)
  expect(patientDocument.parse(json(other))).toMatchObject({ patientId: 'P1', markers: { 'serum-m-protein': { samples: 2 } } })
  expect(json(await lowmark(url, 'recheck', '--json'))).toMatchObject({ patients: 1, differences: [] })

  expect(await lowmark(url, 'merge', 'end', '1', '--reason', 'Two people')).toMatchObject({
    status: 0,
    out: 'Records P2 and P1 are two patients again.\n',
  })
  expect(patientDocument.parse(json(await lowmark(url, 'patient', 'P2', '--json')))).toMatchObject({ patientId: 'P2' })
  expect(json(await lowmark(url, 'recheck', '--json'))).toMatchObject({ patients: 2, differences: [] })
  expect((await lowmark(url, 'log', 'verify')).status).toBe(0)
})

test('the list of merges, and declining with or without a reason', async () => {
  await propose()
  expect(await lowmark(url, 'merge', 'decline', '1')).toMatchObject({ status: 0, out: 'Merge 1 is declined; both records stay as they are.\n' })
  await propose()
  expect(json(await lowmark(url, 'merge', 'decline', '2', '--reason', 'Two people', '--json'))).toMatchObject({ mergeId: 2 })
  await propose()
  const all = json<Record<'waiting' | 'inForce' | 'past', { mergeId: number; state: string; decisionReason: string | null }[]>>(
    await lowmark(url, 'merge', 'list', '--json'),
  )
  expect([all.waiting.map(({ mergeId }) => mergeId), all.inForce]).toEqual([[3], []])
  expect(all.past.map(({ mergeId, state, decisionReason }) => [mergeId, state, decisionReason])).toEqual([
    [2, 'declined', 'Two people'],
    [1, 'declined', null],
  ])
  const table = (await lowmark(url, 'merge', 'list')).out.trimEnd().split('\n')
  expect([table.length, table[1]]).toEqual([4, expect.stringMatching(/^3 +P2 +P1 +waiting .*Registered twice$/)])
})

test.each([
  [['merge', 'propose', 'P2', 'P1'], 2, '--reason TEXT is missing'],
  [['merge', 'propose', 'P2', '--reason', 'why'], 2, 'FROM INTO is missing'],
  [['merge', 'confirm', 'one'], 2, 'ID is the number merge list shows'],
  [['merge', 'end', '1'], 2, '--reason TEXT is missing'],
  [['merge'], 2, 'is not a command of Lowmark'],
  [['merge', 'propose', 'P2', 'P9', '--reason', 'why'], 1, 'No patient has the number "P9"'],
  [['merge', 'confirm', '9'], 1, 'No merge has the number 9'],
  [['merge', 'end', '9', '--reason', 'why'], 1, 'No merge has the number 9'],
] as const)('%j: exit status %i', async (words, status, says) => {
  expect(await lowmark(url, ...words)).toMatchObject({ status, out: '', err: expect.stringContaining(says) })
})
