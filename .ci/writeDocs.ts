/** `npx tsx .ci/writeDocs.ts`: renews the sections of docs/rules.md and docs/models.md after a record of lib changed. A test asks for it. */
import { readFileSync, writeFileSync } from 'node:fs'
import { modelsPart, renewed, rulesPart } from './aboutDocs.ts'

for (const [path, part] of [
  ['docs/rules.md', rulesPart()],
  ['docs/models.md', modelsPart()],
] as const) {
  writeFileSync(path, renewed(readFileSync(path, 'utf8'), part))
}
