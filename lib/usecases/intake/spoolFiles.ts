import { MOST_BYTES } from '../../intake/index.ts'
import type { Outcome } from '../call.ts'
import type { SpooledFile } from './incoming.ts'
import { NoRoom, openSpool, type Spool } from './spool.ts'

/** A file as its sender announces it. */
export interface AnnouncedFile {
  readonly name: string
  readonly size: number
}

/** Files that lie beside the database. Whoever asked for them drops them in every case. */
export interface SpooledFiles {
  readonly files: readonly SpooledFile[]
  readonly drop: () => Promise<void>
}

function invalid(reason: string): Outcome<never> {
  return { ok: false, kind: 'invalid', reason }
}

/** Writes bytes into the files they belong to, by the sizes announced. */
async function distribute(announced: readonly AnnouncedFile[], body: AsyncIterable<Uint8Array>, spools: Spool[]): Promise<number> {
  const most = announced.reduce((sum, { size }) => sum + size, 0)
  let [received, at, left] = [0, -1, 0]
  const next = async (): Promise<Spool | undefined> => {
    await spools[at]?.end()
    const file = announced[++at]
    if (file === undefined) return undefined
    left = file.size
    const spool = await openSpool(file.name)
    spools.push(spool)
    return spool
  }
  let spool = await next()
  for await (const bytes of body) {
    received += bytes.byteLength
    if (received > most) return received
    for (let from = 0; from < bytes.byteLength; ) {
      while (left === 0 && spool !== undefined) spool = await next()
      const piece = bytes.subarray(from, from + left)
      await spool?.write(piece)
      from += piece.byteLength
      left -= piece.byteLength
    }
  }
  while (spool !== undefined) spool = await next()
  return received
}

/**
 * Takes the files of one request, one after the other as their senders announce them, and never more of them than the limit: refused when they are too
 * large, or when other bytes arrive than were announced, and `unavailable` where the disk
 * does not take them; then nothing of them is left.
 */
export async function spoolFiles(announced: readonly AnnouncedFile[], body: AsyncIterable<Uint8Array>): Promise<Outcome<SpooledFiles>> {
  const most = announced.reduce((sum, { size }) => sum + size, 0)
  if (most > MOST_BYTES) return invalid('More than 512 MiB. Nothing was read; split the file.')
  const spools: Spool[] = []
  const drop = async (): Promise<void> => {
    for (const spool of spools) await spool.drop()
  }
  try {
    const received = await distribute(announced, body, spools)
    if (received === most) return { ok: true, value: { files: await Promise.all(spools.map((spool) => spool.end())), drop } }
    await drop()
    const arrived = received > most ? 'more' : received
    return invalid(`${most} bytes were announced and ${arrived} arrived. Nothing was read; send it again.`)
  } catch (error) {
    await drop()
    if (error instanceof NoRoom) return { ok: false, kind: 'unavailable', reason: error.message }
    throw error
  }
}
