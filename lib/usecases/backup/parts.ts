import { randomUUID } from 'node:crypto'
import { closeSync, openSync, readdirSync, rmSync, statSync } from 'node:fs'
import { hostname } from 'node:os'
import { basename, dirname, join } from 'node:path'

const SUFFIX = 'lowmark-part'
const DAY_MS = 86_400_000
const HOST = hostname().replaceAll(/[^A-Za-z0-9-]/g, '-') || 'host'
const PART = new RegExp(`^\\..+\\.([A-Za-z0-9-]+)\\.(\\d+)\\.[0-9a-f]{8}\\.${SUFFIX}(?:-wal|-shm|-journal)?$`)

// Of this process: a number of a process comes round again, so of the own one only what it has begun itself counts.
const begun = new Set<string>()

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM'
  }
}

/** May whoever wrote it still need it? On another machine nobody can tell, so it is left for a day. */
function isNeeded(path: string, host: string, pid: number): boolean {
  if (host !== HOST) return Date.now() - statSync(/* turbopackIgnore: true */ path).mtimeMs < DAY_MS
  if (pid === process.pid) return begun.has(path.replace(/-(?:wal|shm|journal)$/, ''))
  return isRunning(pid)
}

/** Takes away what a backup or restore left in a folder that was ended half way, and names it. */
export function clearParts(directory: string): string[] {
  const left: string[] = []
  for (const name of readdirSync(/* turbopackIgnore: true */ directory)) {
    const [, host, pid] = PART.exec(name) ?? []
    if (host === undefined || pid === undefined) continue
    const path = join(/* turbopackIgnore: true */ directory, name)
    if (isNeeded(path, host, Number(pid))) continue
    rmSync(path, { force: true })
    left.push(path)
  }
  return left
}

/** An empty file that only its owner may read, in the folder of `path`, under a name that says it is unfinished. */
export function beginPart(path: string): string {
  const part = join(dirname(path), `.${basename(path)}.${HOST}.${process.pid}.${randomUUID().slice(0, 8)}.${SUFFIX}`)
  closeSync(openSync(/* turbopackIgnore: true */ part, 'wx', 0o600))
  begun.add(part)
  return part
}

/** Takes a part away, with what SQLite may have put beside it. Nothing where it has been taken away, or has its final name. */
export function dropPart(part: string): void {
  for (const beside of ['', '-wal', '-shm', '-journal']) rmSync(`${part}${beside}`, { force: true })
  begun.delete(part)
}

/** Takes every part of this process away at once: it is being stopped. */
export function dropAllParts(): void {
  for (const part of [...begun]) dropPart(part)
}
