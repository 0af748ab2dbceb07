import { describe, expect, it } from 'vitest'
import { MEASURE_TEXTS, MEASURES } from '../../lib/followup/index.ts'
import { audits, figures } from '../followup/worked.ts'
import { figureTexts, occasionRows } from '../followup/workedTables.ts'
import { section, tableRows, textOf } from './tree.ts'

const PAGE = textOf('docs/follow-up.md')

describe('docs/follow-up.md', () => {
  it('has every occasion of the clinic worked out by hand, as the audit has it', () => {
    expect(tableRows(section(PAGE, '### Occasions') ?? '')).toEqual(occasionRows(audits()))
  })

  it('has every figure of it, as the audit has it', () => {
    const told = tableRows(section(PAGE, '### Figures') ?? '').map(([name, , figure]) => [name, figure])
    expect(told).toEqual(Object.entries(figureTexts(figures())))
  })

  it('counts the same when the tests of the table are added up', () => {
    const of = (verdict: RegExp) =>
      tableRows(section(PAGE, '### Occasions') ?? '').reduce((sum, [, , , tests, , told]) => sum + (verdict.test(told ?? '') ? Number(tests) : 0), 0)
    const { due, onTime, late, missed } = figures().onTime
    expect([of(/^on time$/), of(/^late/), of(/^missed$/)]).toEqual([onTime, late, missed])
    expect(of(/^(on time|late|missed)/)).toBe(due)
  })

  it('has a paragraph for every measure, word for word as the pages tell it', () => {
    const paragraphs = (section(PAGE, '## The measures') ?? '').split('\n\n').flatMap((text) => {
      const [, title, says] = /^\*\*(.+?)\.\*\*\s+(.+)$/s.exec(text.trim()) ?? []
      return title === undefined || says === undefined ? [] : [{ title, says: says.replace(/[*`]/g, '').replace(/\s+/g, ' ') }]
    })
    expect(paragraphs).toEqual(MEASURES.map((name) => MEASURE_TEXTS[name]))
  })
})
