import { describe, expect, it } from 'vitest'
import { CAUTION_SAYS, CAUTIONS, RULE_IDS, ruleAbout } from '../../lib/rules/index.ts'
import { section, tableRows, textOf } from './tree.ts'

const DOCS = textOf('docs/rules.md')

/** A paragraph that begins with a label, as one line; null where there is none. */
function labelled(text: string, label: string): string | null {
  const paragraph = text.split('\n\n').find((part) => part.trim().startsWith(`**${label}.** `))
  return paragraph === undefined ? null : paragraph.trim().slice(`**${label}.** `.length).replaceAll('\n', ' ')
}

describe('docs/rules.md', () => {
  it('has one section a rule, in their order, and none besides', () => {
    const headings = [...DOCS.matchAll(/^### `(.+)`$/gm)].map(([, id]) => id)
    expect(headings).toEqual([...RULE_IDS])
  })

  it.each(RULE_IDS)('tells what %s asks and where it comes from, word for word', (id) => {
    const told = section(DOCS, `### \`${id}\``) ?? ''
    expect({ asks: labelled(told, 'Asks'), source: labelled(told, 'Source') }).toEqual(ruleAbout(id))
  })

  it.each(RULE_IDS)('tells what %s cannot see and what else can cause it', (id) => {
    const told = section(DOCS, `### \`${id}\``) ?? ''
    for (const label of ['Cannot see', 'What else can cause it']) expect(labelled(told, label)).toMatch(/^[A-Z1].{10,}\.$/)
  })

  it('explains every caution in its own words', () => {
    const told = tableRows(section(DOCS, '## Cautions a finding can carry') ?? '')
    expect(told).toEqual(CAUTIONS.map((caution) => [`\`${caution}\``, CAUTION_SAYS[caution]]))
  })

  it('says what Lowmark does not do', () => {
    expect(DOCS).toContain('It does not diagnose, attribute or treat; local protocol and the treating physician decide.')
  })
})
