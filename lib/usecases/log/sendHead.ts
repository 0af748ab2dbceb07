import { closeSync, fstatSync, fsyncSync, openSync, readSync, writeSync } from 'node:fs'
import { headLine, type KeptHead } from '../../trail/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import type { HeadPlace } from './headPlace.ts'
import { keepHeadSent } from './logHealth.ts'
import { sendSyslog } from './sendSyslog.ts'

const OWNER_ONLY = 0o600

/** Adds a line to a file, on the disk. A line that was cut off by a power cut is left as it is, and the next begins on its own. */
function appendLine(path: string, line: string): void {
  const file = openSync(path, 'a+', OWNER_ONLY)
  try {
    const { size } = fstatSync(file)
    const last = Buffer.alloc(1)
    if (size > 0) readSync(file, last, 0, 1, size - 1)
    writeSync(file, `${size > 0 && last.toString() !== '\n' ? '\n' : ''}${line}\n`)
    fsyncSync(file)
  } finally {
    closeSync(file)
  }
}

/** A place as it is written in words and settings. */
export function placeText(place: HeadPlace): string {
  if (place.kind === 'file') return place.path
  return `${place.kind}:${place.host.includes(':') ? `[${place.host}]` : place.host}:${place.port}`
}

/**
 * Sends number, hash, time and database of the last entry to a place outside the database, where a cut or rewritten log shows against it later. That
 * it was sent, or why not, is kept and is an entry; `unavailable` where it could not be sent.
 */
export async function sendHead(call: Call, place: HeadPlace): Promise<Outcome<KeptHead>> {
  const refused = await refusedUnlessMay(call, 'log.read-all', 'log')
  if (refused !== null) return refused
  const { reader } = call.store
  const { sequence, hash } = reader.trailHead()
  if (sequence === 0) return { ok: false, kind: 'invalid', reason: 'The log is empty: it has no head yet.' }
  const head: KeptHead = { sequence, hash, at: call.now, databaseId: reader.databaseId() }
  const to = placeText(place)
  try {
    if (place.kind === 'file') appendLine(place.path, headLine(head))
    else await sendSyslog(place, `log head ${headLine(head)}`, new Date(call.now))
  } catch (error) {
    const reason = (error as Error).message
    await keepHeadSent(call, { sent: null, failed: { at: call.now, to, reason } }, place.kind, sequence)
    return { ok: false, kind: 'unavailable', reason: `The head of the log could not be sent to ${to}: ${reason}.` }
  }
  await keepHeadSent(call, { sent: { at: call.now, sequence, hash, to }, failed: null }, place.kind, sequence)
  return { ok: true, value: head }
}
