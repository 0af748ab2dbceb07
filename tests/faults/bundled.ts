import { mkdirSync, rmSync } from 'node:fs'
import { createRequire } from 'node:module'
import { basename, join, resolve } from 'node:path'

type Build = (options: object) => Promise<unknown>
const require = createRequire(import.meta.url)
// The one tsx brings: it runs these very files when they are started one by one.
const { build } = createRequire(require.resolve('tsx'))('esbuild') as { build: Build }

// Inside the project, because what is not bundled is looked for from there.
const FOLDER = resolve('tests/output/faults', String(process.pid))
process.once('exit', () => rmSync(FOLDER, { recursive: true, force: true }))

/** A TypeScript program as one plain file: it starts in a fifth of the time, which counts where one is started for every fault. */
export async function bundled(source: string): Promise<string> {
  mkdirSync(FOLDER, { recursive: true })
  const outfile = join(FOLDER, basename(source).replace(/\.ts$/, '.mjs'))
  await build({ entryPoints: [source], bundle: true, platform: 'node', format: 'esm', packages: 'external', outfile, logLevel: 'error' })
  return outfile
}
