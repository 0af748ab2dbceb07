// Brings a fresh checkout to where everything else can run: packages once per lockfile, the database client once per schema.
// Plain JavaScript with nothing but Node in it, because it runs before anything is installed.
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname } from 'node:path'

const STAMP = 'node_modules/.lowmark-stamp.json'

function digest(...files) {
  const hash = createHash('sha256').update(process.version)
  for (const file of files) hash.update(readFileSync(file))
  return hash.digest('hex')
}

function readStamp() {
  return existsSync(STAMP) ? JSON.parse(readFileSync(STAMP, 'utf8')) : {}
}

function writeStamp(change) {
  mkdirSync(dirname(STAMP), { recursive: true })
  writeFileSync(STAMP, JSON.stringify({ ...readStamp(), ...change }))
}

// Standard output belongs to the command that is being prepared for, so everything here goes to standard error.
function run(command, args, saying) {
  process.stderr.write(`${saying}\n`)
  const done = spawnSync(command, args, { stdio: ['ignore', 2, 2], env: { ...process.env, NEXT_TELEMETRY_DISABLED: '1' } })
  if (done.status !== 0) {
    process.stderr.write(`"${[command, ...args].join(' ')}" failed. Nothing was started.\n`)
    process.exit(1)
  }
}

const packages = digest('package-lock.json')
if (readStamp().packages !== packages) {
  run('npm', ['ci', '--no-audit', '--no-fund'], 'Installing packages (once per lockfile) ...')
  writeStamp({ packages })
}

const schema = digest('prisma/schema.prisma', 'prisma.config.ts', 'package-lock.json')
if (readStamp().schema !== schema || !existsSync('lib/store/generated')) {
  run('node_modules/.bin/prisma', ['generate'], 'Generating the database client (once per schema) ...')
  writeStamp({ schema })
}
