/** Builds the pages when what they are made of has changed since the last build; otherwise does nothing. */
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'

const STAMP = '.next/lowmark-sources'
const SOURCES = ['app', 'lib', 'seed', 'prisma', 'next.config.ts', 'postcss.config.mjs', 'tsconfig.json', 'package-lock.json']

function filesOf(source: string): string[] {
  if (!statSync(source).isDirectory()) return [source]
  return readdirSync(source, { recursive: true, encoding: 'utf8' })
    .map((name) => join(source, name))
    .filter((file) => statSync(file).isFile())
}

function sourceDigest(): string {
  const hash = createHash('sha256').update(process.version)
  for (const source of SOURCES) for (const file of filesOf(source).toSorted()) hash.update(file).update('\0').update(readFileSync(file))
  return hash.digest('hex')
}

/** Are the pages built from the sources as they are? Writes nothing. */
export function isBuilt(digest = sourceDigest()): boolean {
  return existsSync(STAMP) && readFileSync(STAMP, 'utf8') === digest
}

/** Builds with Next when needed. Returns false when the build failed. */
export function buildPages(): boolean {
  const digest = sourceDigest()
  if (isBuilt(digest)) return true
  process.stderr.write('Building the pages (once per change) ...\n')
  const env = { ...process.env, NEXT_TELEMETRY_DISABLED: '1', NODE_ENV: 'production' as const }
  const built = spawnSync('node_modules/.bin/next', ['build'], { stdio: ['ignore', 2, 2], env })
  if (built.status !== 0) return false
  writeFileSync(STAMP, digest)
  return true
}

if (import.meta.filename === process.argv[1]) process.exit(buildPages() ? 0 : 1)
