import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { beforeAll, expect, test, vi } from 'vitest'
import { bundled } from './bundled.ts'
import { untilPrinted } from './child.ts'
import { clinicIn, ownFolder } from './damagedClinic.ts'
import { acknowledgedIn, lawHolds } from './law.ts'
import { canMake } from './needs.ts'
import { seeded } from './seeded.ts'
import { begin, inPairs, startWaiting, traceFromNow, untilReady } from './traced.ts'

// A few seconds each; the bound is for a machine that is busy with other things.
vi.setConfig({ testTimeout: 240_000 })

const { isImpossible, titled } = canMake('kill -9 at the n-th write', 'strace')
const ROUNDS = '5'

let working = ''
beforeAll(async () => {
  working = await bundled('tests/faults/working.ts')
})

/** How often a program that works unharmed makes a call in its main thread. */
async function timesMade(call: string): Promise<number> {
  const { folder, remove } = ownFolder()
  const log = join(folder, 'calls')
  const child = startWaiting([working, await clinicIn(folder), 'w', ROUNDS])
  await traceFromNow(child, { calls: call, log })
  expect(await child.ended).toBe(0)
  const lines = readFileSync(log, 'utf8').split('\n')
  remove()
  return lines.filter((line) => line.startsWith(`${child.process.pid} `) && line.includes(`${call}(`)).length
}

/** Numbers from 1 to `last`, spread evenly, both ends among them. */
function spread(last: number, count: number): number[] {
  return [...new Set(Array.from({ length: count }, (_, at) => Math.round(1 + (at * (last - 1)) / (count - 1))))]
}

test.skipIf(isImpossible).each([
  ['pwrite64', 12],
  ['fsync', 8],
] as const)(titled('killed at the n-th %s from the first to the last: what was acknowledged is there and nothing by half'), async (call, points) => {
  const last = await timesMade(call)
  expect(last).toBeGreaterThanOrEqual(points)
  const told = new Set<number>()
  await inPairs(spread(last, points), async (n) => {
    const { folder, remove } = ownFolder()
    const url = await clinicIn(folder)
    const child = startWaiting([working, url, 'w', ROUNDS])
    await traceFromNow(child, { calls: call, inject: `${call}:signal=KILL:when=${n}` })
    expect([n, await child.ended]).toEqual([n, null])
    const acknowledged = acknowledgedIn(child.lines)
    told.add(acknowledged.files.length + acknowledged.reviews.length)
    expect([n, await lawHolds(url, acknowledged)]).toEqual([n, []])
    remove()
  })
  // The points were before, between and after what was done.
  expect(told.size).toBeGreaterThan(4)
})

test('killed at moments of chance, again and again over the same file: what was acknowledged is there and nothing by half', async () => {
  const chance = seeded('kill -9 at moments of chance')
  const { folder, remove } = ownFolder()
  const url = await clinicIn(folder)
  const lines: string[] = []
  for (let kills = 0; kills < 5; kills++) {
    const child = startWaiting([working, url, `k${kills}`, '100000'])
    await untilReady(child)
    begin(child)
    await untilPrinted(child, 2 + chance(20))
    await pause(chance(20))
    child.process.kill('SIGKILL')
    expect(await child.ended).toBe(null)
    lines.push(...child.lines)
    expect([kills, await lawHolds(url, acknowledgedIn(lines))]).toEqual([kills, []])
  }
  expect(acknowledgedIn(lines).files.length).toBeGreaterThanOrEqual(5)
  remove()
})
