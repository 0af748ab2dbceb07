import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { type HeldAct, recheck, revokeMapping } from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { runs } from '../../store/runs.ts'
import { callOf, granted } from '../accounts/persons.ts'
import { csv, patientRow, type Row, resultRow } from '../clinic.ts'
import { decideAs, takeFrom, waitingIds, whatCounts } from './queue.ts'

const PATIENTS = ['P1', 'P2', 'X1']

// Every sample once, or once with its correction: what two reports of one sample without a correction say is a person's choice, not a law.
const ROWS = fc
  .uniqueArray(
    fc.record({
      patient: fc.constantFrom(...PATIENTS),
      sample: fc.integer({ min: 1, max: 4 }),
      code: fc.constantFrom('HB', '718-7'),
      unit: fc.constantFrom('g/L', 'gramm'),
      value: fc.constantFrom('101', '99', '9,9', '9000'),
      corrected: fc.boolean(),
    }),
    { selector: ({ patient, sample, corrected }) => `${patient} ${sample} ${corrected}`, minLength: 1, maxLength: 10 },
  )
  .map((rows) =>
    rows.map(({ patient, sample, code, unit, value, corrected }) =>
      resultRow({ patient_id: patient, code, unit, value, accession: `${patient} ${sample}`, status: corrected ? 'corrected' : '' }),
    ),
  )

const ACTS = { HB: { kind: 'code', code: '718-7' }, gramm: { kind: 'unit', unit: 'g/L' } } as const satisfies Readonly<Record<string, HeldAct>>

async function clinicWith(rows: readonly Row[]): Promise<Awaited<ReturnType<typeof freshStore>>> {
  const fresh = await freshStore()
  await takeFrom(fresh.store, null, [csv('patients.csv', [patientRow(), patientRow({ patient_id: 'P2' })])])
  await takeFrom(fresh.store, 'north', [csv('r.csv', rows)])
  return fresh
}

/** Says what the code and the unit mean, row by row in this order, until nothing changes any more. */
async function settle(store: Store, inOrder: (ids: readonly number[]) => readonly number[]): Promise<void> {
  for (let round = 0; round < 3; round += 1) {
    for (const id of inOrder(waitingIds(store))) {
      const reason = store.reader.heldRow(id)
      if (reason === null || reason.resolved !== null) continue
      if (reason.reason === 'unknown-code') await decideAs(store, id, ACTS.HB)
      if (reason.reason === 'unit-unknown') await decideAs(store, id, ACTS.gramm)
    }
  }
}

/** Rows of the file as counted when it came, and held ones told apart by what became of them since. */
function accounted(store: Store): { rows: number; filed: number; waiting: number; resolved: number; held: number; known: number } {
  const file = store.reader.recentFiles(1)[0]
  const held = store.reader.heldRowsOfFile(file?.id ?? 0)
  const counts = { rows: file?.rowsInFile ?? 0, filed: (file?.filed ?? 0) + (file?.corrected ?? 0), known: file?.known ?? 0, held: file?.held ?? 0 }
  const waiting = held.filter(({ resolved }) => resolved === null).length
  return { ...counts, waiting, resolved: held.length - waiting }
}

test('resolving never loses a row, and the order of resolving does not matter', async () => {
  await fc.assert(
    fc.asyncProperty(ROWS, fc.integer({ min: 0, max: 5 }), async (rows, turn) => {
      const [one, other] = [await clinicWith(rows), await clinicWith(rows)]
      const rotated = (ids: readonly number[]) => [...ids.slice(turn % Math.max(ids.length, 1)), ...ids.slice(0, turn % Math.max(ids.length, 1))]
      await settle(one.store, (ids) => ids)
      await settle(other.store, (ids) => rotated(ids.toReversed()))
      expect(await whatCounts(other.store)).toEqual(await whatCounts(one.store))
      for (const { store } of [one, other]) {
        const { rows: all, filed, known, held, waiting, resolved } = accounted(store)
        expect([filed + known + held, waiting + resolved]).toEqual([all, held])
        // A held row that was resolved is a stored version, or repeats one.
        const stored = PATIENTS.reduce((sum, id) => sum + store.reader.versionsOfPatient(id).length, 0)
        expect(stored).toBeGreaterThanOrEqual(filed)
        expect(stored + known).toBeLessThanOrEqual(filed + known + resolved)
        expect(granted(await recheck(callOf(store))).differences).toEqual([])
      }
      await one.dispose()
      await other.dispose()
    }),
    runs(12),
  )
}, 300_000)

test('whatever was filed with a mapping, revoking it leaves what there would be without it, and mapping it again what there was', async () => {
  await fc.assert(
    fc.asyncProperty(ROWS, async (rows) => {
      const fresh = await clinicWith(rows)
      const { store } = fresh
      const before = await whatCounts(store)
      const first = store.reader.heldQueue().find(({ reason }) => reason === 'unknown-code')
      fc.pre(first !== undefined)
      granted(await decideAs(store, first?.id ?? 0, ACTS.HB, { alike: true, remember: true }))
      const mapped = await whatCounts(store)
      granted(await revokeMapping(callOf(store), { mappingId: 1, reason: 'a test of the law' }))
      expect(JSON.stringify(await whatCounts(store))).toBe(JSON.stringify(before))
      const again = store.reader.heldQueue().find(({ reason }) => reason === 'unknown-code')
      granted(await decideAs(store, again?.id ?? 0, ACTS.HB, { alike: true, remember: true }))
      expect(await whatCounts(store)).toEqual(mapped)
      await fresh.dispose()
    }),
    runs(12),
  )
}, 300_000)
