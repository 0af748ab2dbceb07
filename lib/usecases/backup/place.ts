import { closeSync, existsSync, fsyncSync, linkSync, openSync, renameSync, unlinkSync } from 'node:fs'
import { dirname } from 'node:path'

/** Makes what was written to a file or folder survive a power cut. */
export function toDisk(path: string): void {
  const open = openSync(/* turbopackIgnore: true */ path, 'r')
  try {
    fsyncSync(open)
  } finally {
    closeSync(open)
  }
}

const NO_LINKS = ['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK']

/**
 * Gives a finished part its final name, which must be free: nothing is ever overwritten. A link is refused where the name is taken, a rename is not.
 * Where the disk knows no links, it is looked at first. Throws the system's error, EEXIST where the name is taken.
 */
export function place(part: string, final: string): void {
  toDisk(part)
  try {
    linkSync(part, final)
    unlinkSync(part)
  } catch (error) {
    if (!NO_LINKS.includes((error as NodeJS.ErrnoException).code ?? '')) throw error
    if (existsSync(final)) throw Object.assign(new Error(`${final} is there already`), { code: 'EEXIST' })
    renameSync(part, final)
  }
  toDisk(dirname(final))
}
