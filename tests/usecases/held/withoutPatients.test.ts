import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { Role } from '../../../lib/access/index.ts'
import type { Store } from '../../../lib/store/index.ts'
import { acceptFiles, decideHeld, heldPage, heldRows, openHeld, readReport } from '../../../lib/usecases/index.ts'
import { BORN, FIRST, inRole, type Planted, plant } from '../../canaries/planted.ts'
import { freshStore } from '../../store/freshStore.ts'
import { granted } from '../accounts/persons.ts'
import { csv } from '../clinic.ts'

const NOTHING_TRIED = { code: '', unit: '' }

describe('what is known of a patient beside a held row', () => {
  let store: Store
  let dispose: () => Promise<void>
  let planted: Planted
  beforeAll(async () => {
    ;({ store, dispose } = await freshStore())
    planted = await plant(store)
  })
  afterAll(() => dispose())

  async function everything(role: Role): Promise<string> {
    const call = inRole(store, role)
    const rows = await Promise.all(planted.heldIds.map(async (id) => granted(await openHeld(call, id, NOTHING_TRIED))))
    const reports = await Promise.all(planted.fileIds.map(async (id) => granted(await readReport(call, id))))
    const early = csv('early.csv', [{ patient_id: FIRST, collected_at: '1930-01-01', code: '33358-3', value: '1', unit: 'g/L' }])
    const sent = granted(await acceptFiles(call, [early], { source: 'North', dryRun: true }))
    const again = await Promise.all(
      planted.heldIds.map((heldId) =>
        decideHeld(call, { heldId, act: { kind: 'unit', unit: 'g/L' }, alike: true, except: [], remember: false, reason: 'asked by a test' }),
      ),
    )
    return JSON.stringify([rows, reports, sent, again, granted(await heldPage(call, 1)), granted(await heldRows(call))])
  }

  test('is told to a nurse: birth date, whose it may be, and why', async () => {
    const told = await everything('navigator')
    for (const known of [`the one known of this patient, ${BORN}`, `before the patient's birth, ${BORN}`, 'Zqcanarychoice', 'Zqcanarydecided']) {
      expect(told).toContain(known)
    }
  })

  test('is told to no administrator, who reads the row and why it waits', async () => {
    const told = await everything('administrator')
    expect(told).not.toMatch(new RegExp(`${BORN}|Zqcanary(choice|decided|Given)`))
    expect(told).toContain("before the patient's birth; day and patient need a person's check")
    expect(told).toContain('differs from the one known of this patient; a person must decide')
    expect(told).toContain('1941-02-03')
  })
})
