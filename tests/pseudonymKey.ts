import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, renameSync, writeFileSync } from 'node:fs'

// Every test has a key of the pseudonyms, as every clinic does; tests that ask what happens without one take it away themselves.
const folder = 'tests/output'
const file = `${folder}/pseudonym-key`
if (!existsSync(file)) {
  mkdirSync(folder, { recursive: true })
  const whole = `${file}.${process.pid}`
  writeFileSync(whole, `${createHash('sha256').update('only for tests').digest('hex')}\n`, { mode: 0o600 })
  renameSync(whole, file)
}
process.env.LOWMARK_PSEUDONYM_KEY_FILE = `${process.cwd()}/${file}`
