/** `npx tsx .ci/writeDocs.ts`: renews the made sections of docs/rules.md, docs/models.md and docs/design.md after what they are made of changed. A test asks for it. */
import { readFileSync, writeFileSync } from 'node:fs'
import { modelsPart, renewed, rulesPart } from './aboutDocs.ts'
import { designPart } from './design/designDoc.ts'

for (const [path, part] of [
  ['docs/rules.md', rulesPart()],
  ['docs/models.md', modelsPart()],
  ['docs/design.md', designPart()],
] as const) {
  writeFileSync(path, renewed(readFileSync(path, 'utf8'), part))
}
