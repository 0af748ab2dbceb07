import { describe, expect, it } from 'vitest'
import { modelsPart, renewed } from '../../.ci/aboutDocs.ts'
import { MODEL_IDS, modelPage } from '../../lib/models/index.ts'
import { labelled, section, tableRows, textOf } from './tree.ts'

const DOCS = textOf('docs/models.md')
const sectionOf = (id: (typeof MODEL_IDS)[number]) => section(DOCS, `## \`${id}\`: ${modelPage(id).title}`) ?? ''

describe('docs/models.md', () => {
  it('has one section a model, in their order, and none besides', () => {
    expect([...DOCS.matchAll(/^## `(.+)`: /gm)].map(([, id]) => id)).toEqual([...MODEL_IDS])
  })

  it.each(MODEL_IDS)('tells of %s what its page tells, word for word', (id) => {
    const { asks, source, cannotSee, tables } = modelPage(id)
    const told = sectionOf(id)
    expect([labelled(told, 'Asks'), labelled(told, 'Source'), labelled(told, 'Cannot see')]).toEqual([asks, source, cannotSee.join(' ')])
    expect(tableRows(told)).toEqual(tables.flatMap(({ rows }) => rows))
  })

  it('is what `npx tsx .ci/writeDocs.ts` makes of the records', () => {
    expect(DOCS).toBe(renewed(DOCS, modelsPart()))
  })

  it('says what Lowmark does not do, and that disagreeing models are both shown', () => {
    expect(DOCS).toContain('It does not diagnose, attribute or treat; local protocol and the treating physician decide.')
    expect(DOCS).toContain('Where two models disagree, both are shown.')
  })
})
