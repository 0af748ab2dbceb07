import { existsSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { expect, test } from 'vitest'

/** Everything a file imports for more than its types, and what those import, from one door on. */
function behind(file: string, seen = new Set<string>()): ReadonlySet<string> {
  if (seen.has(file)) return seen
  seen.add(file)
  if (!existsSync(file)) return seen
  // `import type` and `{ type A }` alone are gone before anything runs.
  for (const [, names = '', from = ''] of readFileSync(file, 'utf8').matchAll(/^(?:import|export) (?!type )([^;]*?) from '([^']+)'/gms)) {
    const isTypesAlone =
      names.startsWith('{') &&
      names
        .replace(/[{}]/g, '')
        .split(',')
        .every((name) => name.trim() === '' || name.trim().startsWith('type '))
    if (!isTypesAlone) behind(from.startsWith('.') ? join(dirname(file), from) : from, seen)
  }
  return seen
}

test('behind the door for browsers stand the charts and the scales, and no other room', () => {
  const reached = [...behind('lib/charts/inBrowser.ts')]
  expect(reached.length).toBeGreaterThan(8)
  expect(reached.filter((file) => !file.startsWith('lib/charts/') && file !== '@visx/scale')).toEqual([])
  // The other door does reach them: the search finds what is there.
  expect([...behind('lib/charts/index.ts')].some((file) => file.startsWith('lib/rules/'))).toBe(true)
})
