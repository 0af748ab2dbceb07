import { execFileSync, spawnSync } from 'node:child_process'
import { mkdirSync, rmSync, truncateSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { ownFolder } from './damagedClinic.ts'

/** A file system of its own in a folder of its own; `remove` takes both away, whatever became of the test. */
export interface Mounted {
  readonly folder: string
  readonly remove: () => void
}

const mounted = new Set<string>()
/** Lazily where something is still open in it: a killed program may not be quite gone. */
function unmount(folder: string): void {
  if (spawnSync('umount', [folder], { stdio: 'ignore' }).status !== 0) spawnSync('umount', ['-l', folder], { stdio: 'ignore' })
  mounted.delete(folder)
}
process.once('exit', () => {
  for (const folder of mounted) unmount(folder)
})

function mount(...args: readonly string[]): void {
  execFileSync('mount', args, { stdio: ['ignore', 'ignore', 'pipe'] })
  mounted.add(args.at(-1) ?? '')
}

/** A small disk in memory; `onlyRead` lets nothing be written to it any more. */
export function smallDisk(bytes: number): Mounted & { readonly onlyRead: () => void } {
  const { folder, remove } = ownFolder()
  mount('-t', 'tmpfs', '-o', `size=${bytes}`, 'tmpfs', folder)
  return {
    folder,
    onlyRead: () => mount('-o', 'remount,ro', folder),
    remove() {
      unmount(folder)
      remove()
    },
  }
}

/** A disk image with ext4 on it, which is a file of its own. */
export interface Image extends Mounted {
  readonly image: string
}

const IMAGE_BYTES = 48 * 1024 * 1024

/** Mounts an image of a disk at a folder beside it. The loop device is let go of with the mount. */
export function mountImage(image: string, folder: string): void {
  mkdirSync(folder, { recursive: true })
  mount('-o', 'loop', image, folder)
}

/** A fresh ext4 disk. What a program wrote and did not sync lies in the memory of this machine and not in the image. */
export function ext4Disk(): Image {
  const own = ownFolder()
  const [image, folder] = [join(own.folder, 'disk'), join(own.folder, 'mounted')]
  writeFileSync(image, '')
  truncateSync(image, IMAGE_BYTES)
  execFileSync('mkfs.ext4', ['-q', image], { stdio: 'ignore' })
  mountImage(image, folder)
  return {
    image,
    folder,
    remove() {
      unmount(folder)
      own.remove()
    },
  }
}

/** Mounts what an image holds elsewhere, as after a power cut, while `look` looks at it. */
export async function afterPowerCut<T>(image: string, look: (folder: string) => Promise<T>): Promise<T> {
  const folder = `${image}-mounted`
  mountImage(image, folder)
  try {
    return await look(folder)
  } finally {
    unmount(folder)
    rmSync(folder, { recursive: true, force: true })
  }
}
