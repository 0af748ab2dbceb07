import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmdirSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

/** What a fault may need of the machine beside Node. */
export type Need = 'strace' | 'faketime' | 'mount' | 'mkfs' | 'loop'

const succeeds = (program: string, ...args: string[]): boolean => spawnSync(program, args, { stdio: 'ignore' }).status === 0
const isThere = (program: string): boolean => spawnSync(program, ['--version'], { stdio: 'ignore' }).error === undefined

/** Is there a reason why the kernel or the user of this machine does not allow it? A package that is not installed is none. */
const FORBIDDEN: Readonly<Record<Need, () => string | null>> = {
  strace: () => (isThere('strace') && !succeeds('strace', '-o', '/dev/null', 'true') ? 'this machine lets no program trace another' : null),
  faketime: () => null,
  mkfs: () => null,
  loop: () => (succeeds('losetup', '--find') ? null : 'this machine has no loop device to give'),
  mount: () => {
    const folder = mkdtempSync(join(tmpdir(), 'lowmark-mount-'))
    const mounted = succeeds('mount', '-t', 'tmpfs', '-o', 'size=64k', 'tmpfs', folder)
    if (mounted) succeeds('umount', folder)
    rmdirSync(folder)
    return mounted ? null : 'this machine or user may not mount a file system'
  },
}

const MISSING: Readonly<Record<Need, () => string | null>> = {
  strace: () => (isThere('strace') ? null : 'strace is not installed'),
  faketime: () => (isThere('faketime') ? null : 'faketime is not installed'),
  mkfs: () => (isThere('mkfs.ext4') ? null : 'mkfs.ext4 (e2fsprogs) is not installed'),
  mount: () => null,
  loop: () => null,
}

/** Titles a test by what it shows, and by why it could not run where that is so. */
export interface Possible {
  readonly isImpossible: boolean
  readonly titled: (title: string) => string
}

/**
 * Can a fault be made on this machine? Where not, says so on standard error and in the titles of its tests, which are then left out. In CI a package that
 * is missing is a failure: there it can be installed.
 */
export function canMake(fault: string, ...needs: readonly Need[]): Possible {
  const missing = needs.flatMap((need) => MISSING[need]() ?? [])
  if (missing.length > 0 && process.env.CI === 'true') throw new Error(`"${fault}" cannot be tested: ${missing.join(', ')}. .ci/run installs it.`)
  const reasons = [...missing, ...needs.flatMap((need) => FORBIDDEN[need]() ?? [])]
  if (reasons.length > 0) process.stderr.write(`\nNOT TESTED: ${fault}. Why: ${reasons.join(', ')}.\n`)
  return { isImpossible: reasons.length > 0, titled: (title) => (reasons.length === 0 ? title : `${title} (not tested: ${reasons.join(', ')})`) }
}
