import { createHash } from 'node:crypto'
import { setTimeout as pause } from 'node:timers/promises'
import type { BesideView } from '../../lib/usecases/index.ts'
import { act, page, type Served, upload } from '../../tests/faults/served.ts'
import type { laboratory } from './laboratory.ts'
import type { Asked, Work } from './latencies.ts'

/** What was asked and how long it took, and what somebody was told is done. */
export interface Doing {
  readonly asked: Asked[]
  readonly files: { sha256: string; rows: number }[]
  readonly reviews: { patientId: string; note: string }[]
  /** Answers of the server that were no answers. */
  readonly failed: string[]
  /** Answers that somebody else's was before: no failure, and nothing to find afterwards. */
  refused: number
}

export interface Load {
  readonly served: Served
  readonly doing: Doing
  readonly began: number
  readonly ends: AbortSignal
}

/** Once more where the connection was closed before anything came, which a server may do with one that was idle: as a browser does (RFC 9112, 9.3.1). */
async function askedTwice(ask: () => Promise<Response>): Promise<Response> {
  try {
    return await ask()
  } catch (error) {
    if (!(error instanceof TypeError)) throw error
    return ask()
  }
}

async function asking({ doing, began }: Load, work: Work, ask: () => Promise<Response>): Promise<string> {
  const at = performance.now() - began
  // To answer twice would be another answer; to look, or to send a file, twice is as good as once.
  const answer = await (work === 'review' ? ask() : askedTwice(ask))
  const text = await answer.text()
  doing.asked.push({ work, at, ms: performance.now() - began - at })
  if (answer.status !== 200) doing.failed.push(`${work}: ${answer.status} ${text.slice(0, 200)}`)
  return text
}

/** Again and again with a pause in between, as people do, until the time is over. */
async function again({ ends, doing }: Load, everyMs: number, once: () => Promise<void>): Promise<void> {
  while (!ends.aborted) {
    await once().catch((error: Error) => doing.failed.push(`${error} ${error.cause ?? ''}`))
    await pause(everyMs, undefined, { signal: ends }).catch(() => undefined)
  }
}

const LISTS = ['/list', '/list?sort=patient', '/list?page=2', '/list?phase=smouldering', '/list?window=same-day', '/list?sort=due&order=down']

/** Looks at the list, sorted and filtered one way after another. */
export function looksAtList(load: Load, cookie: string, everyMs: number): Promise<void> {
  let at = 0
  return again(load, everyMs, async () => {
    await asking(load, 'list', () => page(load.served, cookie, LISTS[at++ % LISTS.length] ?? '/list'))
  })
}

/** Opens one patient after another. */
export function opensPatients(load: Load, cookie: string, addresses: readonly string[], everyMs: number): Promise<void> {
  let at = 0
  return again(load, everyMs, async () => {
    await asking(load, 'patient', () => page(load.served, cookie, `/patients/${addresses[at++ % addresses.length]}`))
  })
}

/** Opens one patient after another beside the list and answers the first finding with a note no other answer has. */
export function answers(load: Load, cookie: string, who: string, addresses: readonly string[], everyMs: number): Promise<void> {
  const { served, doing } = load
  let at = 0
  return again(load, everyMs, async () => {
    const note = `${who} ${at}`
    const beside = JSON.parse(await (await page(served, cookie, `/patients/${addresses[at++ % addresses.length]}/beside`)).text()) as {
      value?: BesideView
    }
    const finding = beside.value?.findings.find(({ answered }) => answered === null) ?? beside.value?.findings[0]
    if (beside.value === undefined || finding === undefined) return
    const { rule, key, lastDone } = finding
    const { patientId } = beside.value
    const fields = { patientId, findings: JSON.stringify([{ rule, key, lastDone }]), did: 'repeat-ordered', note, bringBackOn: '' }
    const text = await asking(load, 'review', () => act(served, cookie, 'answerTogether', fields))
    if (text.includes('"ok":true')) doing.reviews.push({ patientId, note })
    else if (text.includes('"ok":false')) doing.refused += 1
    else doing.failed.push(`review: ${text.slice(0, 200)}`)
  })
}

/** Sends one file after another. */
export function sendsFiles(load: Load, cookie: string, from: ReturnType<typeof laboratory>, rows: number, everyMs: number): Promise<void> {
  const { served, doing } = load
  return again(load, everyMs, async () => {
    const { file, again: sentBefore } = from.next()
    const text = await asking(load, 'intake', () => upload(served, cookie, file))
    if (!text.includes('"ok":true')) doing.failed.push(`intake: ${text.slice(-300)}`)
    else if (!sentBefore) doing.files.push({ sha256: createHash('sha256').update(file.bytes).digest('hex'), rows })
  })
}
