import { spawnSync } from 'node:child_process'
import { mkdirSync } from 'node:fs'

/** May this process give itself a disk of its own? That takes root. */
export const canMount = process.getuid?.() === 0 && spawnSync('mount', ['--version']).status === 0

/** Mounts a disk of so many KiB at `path`, in memory. Answers how to take it away. Throws where it cannot. */
export function smallDisk(path: string, kib: number): () => void {
  mkdirSync(path, { recursive: true })
  const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', `size=${kib}k`, 'tmpfs', path], { encoding: 'utf8' })
  if (mounted.status !== 0) throw new Error(`no small disk: ${mounted.stderr}`)
  return () => {
    spawnSync('umount', [path])
  }
}
