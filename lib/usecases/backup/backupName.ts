import { existsSync, statSync } from 'node:fs'
import { dirname, join, resolve } from 'node:path'
import { manifestPath } from './manifest.ts'
import { NoBackup } from './refusal.ts'

/** The names we give in a folder, told apart from everybody else's: the time in UTC, and `.age` where it is encrypted. */
export const OUR_NAME = /^lowmark-\d{8}T\d{6}Z\.db(?:\.age)?$/

/** Where a backup goes, and whether its name is made of the time. */
export interface Destination {
  readonly file: string
  readonly named: boolean
}

function isFolder(path: string): boolean {
  return existsSync(/* turbopackIgnore: true */ path) && statSync(/* turbopackIgnore: true */ path).isDirectory()
}

/** The final name of a backup made at `now` (UTC, ISO 8601). Throws NoBackup where it cannot lie there, or something does already. */
export function destinationOf(to: string, now: string, encrypted: boolean): Destination {
  const given = resolve(/* turbopackIgnore: true */ process.cwd(), to)
  const named = isFolder(given)
  if (!named && /[/\\]$/.test(to)) throw new NoBackup(`The folder ${given} is not there. Make it first, so that a mistyped name is noticed.`)
  const name = `lowmark-${now.slice(0, 19).replaceAll(/[-:]/g, '')}Z.db${encrypted ? '.age' : ''}`
  const file = named ? join(given, name) : given
  if (!isFolder(dirname(file))) throw new NoBackup(`The folder ${dirname(file)} is not there. Make it first.`)
  for (const taken of [file, manifestPath(file)])
    if (existsSync(taken)) throw new NoBackup(`${taken} is there already, and a backup never overwrites anything. Give another name, or a folder.`)
  return { file, named }
}
