import { describe, expect, test } from 'vitest'
import { auditRun, runFile } from '../../../lib/charts/index.ts'
import { figures } from '../../followup/worked.ts'
import { shifted, steady } from './twoYears.ts'

const plain = (text: string): string => text.replaceAll('\u00a0', ' ')

describe('the run chart of tests done on time', () => {
  // Anhoej and Olesen, PLoS ONE 2014;9:e113825: of 24 useful values a run above round(log2(24) + 3) = 8, or crossings below 8 (binomial(23, 1/2)), are unusual.
  test('a shift is told with its months, and drawn over them', () => {
    const { sentence, picture, notes } = auditRun(shifted())
    expect(plain(sentence)).toBe(
      'The share on time has shifted: 9 months in a row, 2025-01 to 2025-09, lie below the median of 82.5 % (chance seldom gives more than 8).',
    )
    expect(picture?.run).toEqual({ from: 27.08, to: 60.42, side: 'below', label: '9 months below: a shift', unusual: true })
    expect(picture?.points.filter(({ inRun }) => inRun).map(({ month }) => month.slice(5))).toEqual([
      '01',
      '02',
      '03',
      '04',
      '05',
      '06',
      '07',
      '08',
      '09',
    ])
    expect(notes[0]).toBe('Longest run: 9, usual up to 8. Crossings of the median: 6, usual from 8 on. Counted over 24 months off the median.')
  })

  test('steady months say so', () => {
    const { sentence, picture } = auditRun(steady())
    expect(plain(sentence)).toMatch(
      /^No lasting shift: at most \d months in a row lie on one side of the median of 8\d\.\d %, and the line crosses it \d+ times; both/,
    )
    expect(picture?.run).toMatchObject({ unusual: false })
  })

  test('every month has its row in table and file, on its side of the median', () => {
    const { table } = auditRun(shifted())
    expect(table?.rows).toHaveLength(24)
    const { columns, rows } = runFile(shifted())
    const texts = rows.map((row) => columns.map(([, cellOf]) => cellOf(row)))
    expect(columns.map(([name]) => name)).toEqual(['month', 'due', 'on time', 'share on time', 'median', 'side of the median', 'in the longest run'])
    expect(texts.filter((cells) => cells[6] === 'yes')).toHaveLength(9)
    expect(texts.every(([, due, onTime, share]) => share === (Number(onTime) / Number(due)).toFixed(4))).toBe(true)
  })

  test('few months: too early, no run is pointed at; the clinic of six, whose median is 7 of 9 on time', () => {
    const { sentence, picture } = auditRun(figures())
    expect(plain(sentence)).toBe(
      'Too early to tell a shift from chance: there are 5 months, of which 4 lie off the median, and ten off the median are needed.',
    )
    expect([picture?.run, picture?.points.some(({ inRun }) => inRun), picture?.median.toFixed(4)]).toEqual([null, false, '0.7778'])
  })

  test.each([
    ['no month', [], 'No test was due in this period, so there is nothing to draw.'],
    ['one month', [0.5], 'Every month has the same share on time, 50.0 %: there is no shift.'],
    ['months that are all alike', [1, 1, 1], 'Every month has the same share on time, 100.0 %: there is no shift.'],
  ] as const)('%s: words instead of a picture', (_, shares, says) => {
    const points = shares.map((proportion, at) => ({
      ...{ month: `2026-0${at + 1}`, due: 2, onTime: 2 * proportion, proportion },
      ...{ centre: proportion, lower: null, upper: null, signal: false },
    }))
    const { sentence, picture } = auditRun({ ...figures(), chart: { points, sigmaZ: null } })
    expect([plain(sentence), picture]).toEqual([says, null])
  })
})
