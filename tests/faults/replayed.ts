import { writeFileSync } from 'node:fs'
import { basename, join } from 'node:path'

/** What strace shows of a call, with its texts as hexadecimal (`-xx`). A process number below 10,000 is filled up with spaces. */
const CALL = /^\d+ +(pwrite64|fsync|ftruncate|write)\((\d+)<([^>]*)>(?:, "([^"]*)")?(?:, (\d+))?(?:, (\d+))?/
const plain = (hex: string): Buffer => Buffer.from(hex.replaceAll('\\x', ''), 'hex')

interface Write {
  readonly path: string
  readonly bytes: Buffer
  readonly at: number
}

/**
 * A disk as unkind as one may be: what was written and not synced reaches it or not, by chance, page by page; and where syncing fails, what was written
 * before is forgotten or not, as kernels do that mark the pages as clean after the error. What they forgot is not written by a later sync that succeeds.
 */
export class UnkindDisk {
  readonly #files = new Map<string, Buffer>()
  #waiting: Write[] = []
  readonly #reaches: () => boolean

  constructor(files: ReadonlyMap<string, Buffer>, reaches: () => boolean) {
    for (const [path, bytes] of files) this.#files.set(path, bytes)
    this.#reaches = reaches
  }

  #keep({ path, bytes, at }: Write, files: Map<string, Buffer>): void {
    const was = files.get(path) ?? Buffer.alloc(0)
    const grown = Buffer.alloc(Math.max(was.length, at + bytes.length))
    was.copy(grown)
    bytes.copy(grown, at)
    files.set(path, grown)
  }

  /** Syncing a file: everything that waits for it is on the disk; or, where that failed, any of it. */
  #sync(path: string, succeeded: boolean): void {
    for (const write of this.#waiting) if (write.path === path && (succeeded || this.#reaches())) this.#keep(write, this.#files)
    this.#waiting = this.#waiting.filter((write) => write.path !== path)
  }

  /** Does one line of the log of a program; what it said on standard output is answered. Lines of other calls are left out. */
  do(line: string, result: string): string | null {
    const [, call, descriptor, path = '', text = '', first = '', second = ''] = CALL.exec(line) ?? []
    const file = plain(path).toString()
    if (call === 'write') return descriptor === '1' ? plain(text).toString().trim() : null
    if (call === 'pwrite64' && !result.startsWith('-1')) {
      const bytes = plain(text)
      if (bytes.length !== Number(first)) throw new Error(`the log of calls holds ${bytes.length} of ${first} bytes`)
      this.#waiting.push({ path: file, bytes, at: Number(second) })
    }
    if (call === 'fsync') this.#sync(file, result.startsWith('0'))
    return null
  }

  /** Writes what is on the disk when the power is cut now into a folder, under the names the files had. */
  cutPower(folder: string): void {
    const files = new Map(this.#files)
    for (const write of this.#waiting) if (this.#reaches()) this.#keep(write, files)
    for (const [path, bytes] of files) if (!path.endsWith('-shm')) writeFileSync(join(folder, basename(path)), bytes)
  }
}

/** The lines of a log of calls with what each ended with: a call another thread cut in two is put together again. */
export function* callsOf(log: string): Generator<{ readonly line: string; readonly result: string }> {
  const begun = new Map<string, string>()
  for (const line of log.split('\n')) {
    const thread = line.slice(0, line.indexOf(' '))
    if (line.includes('<unfinished ...>')) begun.set(thread, line)
    else {
      const result = line.slice(line.lastIndexOf(') ') + 1).replace(/^\s*= /, '')
      const whole = / <\.\.\. \w+ resumed>/.test(line) ? (begun.get(thread) ?? line) : line
      yield { line: whole, result }
    }
  }
}
