import { describe, expect, it } from 'vitest'
import { PLAN_CHOICES, valueText } from '../../lib/plan/index.ts'
import { section, tableRows, textOf } from './tree.ts'

const PLAN = textOf('docs/plan.md')

describe('docs/plan.md', () => {
  it('has every number a clinic may set, with how Lowmark comes, the bounds and the reason for them', () => {
    const asked = PLAN_CHOICES.flatMap((choice) => {
      if (choice.kind === 'interval') return []
      const may = choice.kind === 'number' ? `${choice.least} to ${choice.most}` : Object.values(choice.words).join('; ')
      return [[choice.about, choice.asks, valueText(choice, choice.usual), may, choice.why]]
    })
    expect(asked.length).toBeGreaterThan(15)
    expect(tableRows(section(PLAN, '## What may be set') ?? '')).toEqual(asked)
  })

  it('says the bounds of the intervals as they are', () => {
    const text = PLAN.replaceAll('\n', ' ')
    for (const choice of PLAN_CHOICES) {
      if (choice.kind !== 'interval') continue
      const says = choice.id.endsWith('.every') ? 'Every interval goes from' : 'the end of a step from'
      expect(text).toContain(`${says} ${choice.leastDays} days to ${choice.mostMonths} months`)
    }
  })
})
