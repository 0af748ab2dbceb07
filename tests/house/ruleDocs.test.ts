import { describe, expect, it } from 'vitest'
import { renewed, rulesPart } from '../../.ci/aboutDocs.ts'
import { CAUTION_SAYS, CAUTIONS, RULE_IDS, ruleAbout, rulePage } from '../../lib/rules/index.ts'
import { labelled, section, tableRows, textOf } from './tree.ts'

const DOCS = textOf('docs/rules.md')

describe('docs/rules.md', () => {
  it('has one section a rule, in their order, and none besides', () => {
    const headings = [...DOCS.matchAll(/^### `(.+)`$/gm)].map(([, id]) => id)
    expect(headings).toEqual([...RULE_IDS])
  })

  it.each(RULE_IDS)('tells what %s asks and where it comes from, word for word', (id) => {
    const told = section(DOCS, `### \`${id}\``) ?? ''
    expect({ asks: labelled(told, 'Asks'), source: labelled(told, 'Source') }).toEqual(ruleAbout(id))
  })

  it.each(RULE_IDS)('tells what %s cannot see and what else can cause it, as its page does', (id) => {
    const told = section(DOCS, `### \`${id}\``) ?? ''
    const causes = labelled(told, 'What else can cause it (common practice)') ?? labelled(told, 'What else can cause it')
    expect(labelled(told, 'Cannot see')).toBe(rulePage(id).cannotSee.join(' '))
    expect(causes?.toLowerCase()).toBe(`${rulePage(id).elseCauses.join('; ').toLowerCase()}.`)
  })

  it('is what `npx tsx .ci/writeDocs.ts` makes of the records', () => {
    expect(DOCS).toBe(renewed(DOCS, rulesPart()))
  })

  it('explains every caution in its own words', () => {
    const told = tableRows(section(DOCS, '## Cautions a finding can carry') ?? '')
    expect(told).toEqual(CAUTIONS.map((caution) => [`\`${caution}\``, CAUTION_SAYS[caution]]))
  })

  it('says what Lowmark does not do', () => {
    expect(DOCS).toContain('It does not diagnose, attribute or treat; local protocol and the treating physician decide.')
  })
})
