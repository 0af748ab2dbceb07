import { createHash, randomUUID } from 'node:crypto'
import { mkdirSync, readdirSync, rmSync } from 'node:fs'
import { open } from 'node:fs/promises'
import { join } from 'node:path'
import { MOST_BYTES } from '../../intake/index.ts'
import { databaseUrl, placeOnThisMachine } from '../../store/index.ts'
import type { SpooledFile } from './incoming.ts'

/** Where files lie between their arrival and their being taken in: beside the database, on the disk that is trusted with the same data. */
function spoolDirectory(): string {
  return `${placeOnThisMachine(databaseUrl())}-incoming`
}

const begun = new Set<string>()

/** Whether the process that wrote a file may still need it. A number comes round again: of this process only what it has begun itself counts. */
function isNeeded(name: string): boolean {
  const pid = Number.parseInt(name, 10)
  if (pid === process.pid) return begun.has(name)
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM'
  }
}

/** Takes away what a program left behind that ended before it could: each file is named by the number of the process that wrote it. */
export function clearSpools(): void {
  const directory = spoolDirectory()
  let names: readonly string[] = []
  try {
    names = readdirSync(/* turbopackIgnore: true */ directory)
  } catch {
    return
  }
  for (const name of names) if (!isNeeded(name)) rmSync(join(/* turbopackIgnore: true */ directory, name), { force: true })
}

/** What arrives cannot be written beside the database. The message is a sentence for whoever sent it. */
export class NoRoom extends Error {
  override readonly name = 'NoRoom'
}

/** Does something where files arrive; throws NoRoom where the disk does not take it. */
async function whereFilesArrive<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work()
  } catch (error) {
    const { code = 'unknown' } = error as NodeJS.ErrnoException
    const why = code === 'ENOSPC' || code === 'EDQUOT' ? 'the disk is full' : `the disk answers ${code}`
    throw new NoRoom(`What arrives cannot be kept beside the database: ${why}. Nothing of it was read. Make room on its disk, then send it again.`)
  }
}

/** A file that is arriving. Never more of it than the limit is kept, or asked for. */
export interface Spool {
  /** False once it is over the limit: then nothing further need be sent. */
  readonly write: (bytes: Uint8Array) => Promise<boolean>
  readonly end: () => Promise<SpooledFile>
  /** Takes away what arrived. */
  readonly drop: () => Promise<void>
}

/** Begins a file that only its owner may read. Throws NoRoom, as writing does, where the disk does not take it. Whoever opens it drops it in every case. */
export async function openSpool(name: string, most = MOST_BYTES): Promise<Spool> {
  const directory = spoolDirectory()
  const place = `${process.pid}-${randomUUID()}`
  const path = join(/* turbopackIgnore: true */ directory, place)
  begun.add(place)
  const file = await whereFilesArrive(() => {
    mkdirSync(directory, { recursive: true, mode: 0o700 })
    return open(path, 'wx', 0o600)
  })
  const hash = createHash('sha256')
  let [byteCount, isOpen] = [0, true]
  let ended: SpooledFile | null = null
  const close = async (): Promise<void> => {
    if (!isOpen) return
    isOpen = false
    await file.close()
  }
  return {
    async write(bytes) {
      if (byteCount > most) return false
      byteCount += bytes.byteLength
      hash.update(bytes)
      if (byteCount > most) await file.truncate()
      else await whereFilesArrive(() => file.writeFile(bytes))
      return byteCount <= most
    },
    async end() {
      await close()
      ended ??= { name, path, byteCount: byteCount > most ? null : byteCount, sha256: hash.digest('hex') }
      return ended
    },
    async drop() {
      await close()
      rmSync(path, { force: true })
      begun.delete(place)
    },
  }
}
