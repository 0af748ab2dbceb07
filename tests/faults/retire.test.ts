import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../lib/store/index.ts'
import { day } from '../../lib/time/index.ts'
import { retireLog, verifyExport, verifyLog } from '../../lib/usecases/index.ts'
import { folderOf, freshStore } from '../store/freshStore.ts'
import { callOf, granted } from '../usecases/accounts/persons.ts'
import { daysOf, write } from '../usecases/log/written.ts'
import { startChild } from './child.ts'

let fresh: { store: Store; url: string; dispose: () => Promise<void> }
let file: string
beforeEach(async () => {
  fresh = await freshStore()
  file = join(folderOf(fresh.url), 'retired.ndjson')
  await write(fresh.store, ...daysOf(2018, 9), ...daysOf(2026, 2))
})
afterEach(() => fresh.dispose())

// A program of its own starts slowly on a busy machine.
const PATIENCE_MS = 180_000

test.each([
  ['written', false],
  ['named', true],
  ['inside', true],
] as const)(
  'killed while entries are retired (%s): none is lost, and asked again it goes on',
  async (where, isNamed) => {
    const killed = startChild('retiring.ts', fresh.url, file, where)
    expect([await killed.ended, killed.lines]).toEqual([null, []])
    const { reader } = fresh.store
    expect(reader.verifyTrail()).toMatchObject({ rows: 11, firstBad: null })
    expect([reader.firstTrailRow(), reader.logRanges(), existsSync(file)]).toEqual([1, [], isNamed])
    if (isNamed) expect(verifyExport(file, [])).toMatchObject({ first: 1, last: 9, firstBad: null })

    expect(granted(await retireLog(callOf(fresh.store), { before: day('2019-01-01'), file }))).toMatchObject({ first: 1, last: 9 })
    expect([reader.firstTrailRow(), existsSync(`${file}.part`)]).toEqual([10, false])
    expect(granted(await verifyLog(callOf(fresh.store), { files: [file] }))).toMatchObject({ rows: 12, firstBad: null })
  },
  PATIENCE_MS,
)
