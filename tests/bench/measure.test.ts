import { describe, expect, it } from 'vitest'
import { figure, ninetyFiveOf, rounds, spreadOf } from '../../bench/measure.ts'

describe('figures', () => {
  it.each([
    [[3, 1, 2], { median: 2, least: 1, most: 3 }],
    [[4, 1, 2, 3], { median: 2.5, least: 1, most: 4 }],
    [[7], { median: 7, least: 7, most: 7 }],
  ])('of %j are told by their median and ends', (times, told) => {
    expect(spreadOf(times)).toEqual(told)
  })

  it('of many are told by what ninety-five in a hundred do not exceed', () => {
    expect(ninetyFiveOf(Array.from({ length: 100 }, (_, at) => 100 - at))).toBe(95)
    expect(ninetyFiveOf([3, 1])).toBe(3)
  })

  it('of nothing are refused', () => {
    expect(() => spreadOf([])).toThrow('nothing was measured')
  })

  it('leave the first round out, and every round measures everything', async () => {
    const given = [100, 3, 1, 2]
    const measured = await rounds(3, async () => ({ ours: given.shift() ?? 0, theirs: 5 }))
    expect(measured).toEqual({ ours: { median: 2, least: 1, most: 3 }, theirs: { median: 5, least: 5, most: 5 } })
    expect(given).toEqual([])
  })

  it('are held against the comparator by their medians', () => {
    const [ours, theirs] = [spreadOf([10]), spreadOf([4])]
    const told = figure({ name: 'n', aim: 'a', beside: 'b' }, ours, theirs, (mine) => mine < 10)
    expect([told.ours.median, told.comparator.median, told.ratio, told.met]).toEqual([10, 4, 2.5, false])
  })
})
