import { describe, expect, test } from 'vitest'
import { possibleCourses } from '../../lib/rules/criterion/possibleCourses.ts'
import { numberLevel } from '../../lib/rules/criterion/probability.ts'
import { levelFrom, RISES } from '../../lib/rules/criterion/rise.ts'
import { trueRise } from '../../lib/rules/criterion/trueRise.ts'
import { probabilityWords } from '../../lib/rules/probabilityWords.ts'
import { decimal } from '../../lib/units/index.ts'
import { type Setting, shareTrue, toldOf } from './knownTruth.ts'
import { active, every4Weeks } from './patients.ts'
import { currentBy } from './ruleTable.ts'

const serum = (values: readonly string[], more = {}) => every4Weeks('serum-m-protein', 'g/L', values, more)
const probabilityOf = (values: readonly string[]) => currentBy('pd-serum', active(serum(values)))[0]?.facts.probability

// Total CVs of stable patients: Katzmann, Clin Chem 2011;57:1687.
const SETTINGS: Readonly<Record<string, Setting>> = {
  'serum every 4 weeks': { criterion: RISES.serum, cv: 0.081, start: [12, 62], digits: 1, everyDays: 28 },
  'serum every 12 weeks': { criterion: RISES.serum, cv: 0.081, start: [12, 62], digits: 1, everyDays: 84 },
  'urine every 12 weeks': { criterion: RISES.urine, cv: 0.358, start: [300, 4300], digits: 0, everyDays: 84 },
  'dFLC every 4 weeks': { criterion: RISES.dflc, cv: 0.284, start: [150, 3000], digits: 1, everyDays: 28 },
}

describe.each(Object.entries(SETTINGS))('findings of 3,000 invented patients whose truth is known, %s', (_name, setting) => {
  const told = toldOf(setting, 3000, 20261125)

  test('of those said to be 8 in 10 or more, at least 7 in 10 are true', () => {
    const { count, share } = shareTrue(told, 0.8, 1)
    expect(count).toBeGreaterThan(40)
    expect(share).toBeGreaterThan(0.7)
  })

  test('of those said to be 2 in 10 or less, at most 2 in 10 are true', () => {
    const { count, share } = shareTrue(told, 0, 0.2)
    expect(count).toBeGreaterThan(40)
    expect(share).toBeLessThan(0.2)
  })

  test('of those between 4 and 6 in 10, between 2 and 8 in 10 are true', () => {
    const { count, share } = shareTrue(told, 0.4, 0.6)
    expect(count).toBeGreaterThan(40)
    expect(share).toBeGreaterThan(0.2)
    expect(share).toBeLessThan(0.8)
  })

  test('over all findings as many are true as were said to be, to 7 in 100', () => {
    const said = told.reduce((sum, { probability }) => sum + probability, 0) / told.length
    expect(Math.abs(shareTrue(told, 0, 1).share - said)).toBeLessThan(0.07)
  })
})

test('the measure notices a probability that knows half of the noise', () => {
  const setting: Setting = { criterion: RISES.dflc, cv: 0.284, toldCv: 0.142, start: [150, 3000], digits: 1, everyDays: 28 }
  expect(shareTrue(toldOf(setting, 3000, 20261125), 0.8, 1).share).toBeLessThan(0.7)
})

test('a lowest value that stands alone does not count as the level around it', () => {
  const around = Number(probabilityOf(['20', '21', '19.5', '17', '20.5', '20', '22.1']))
  expect(around).toBeLessThan(0.05)
})

test('the higher the value, and with a second sample, the more probable', () => {
  const rising = [
    ['10', '10', '15'],
    ['10', '10', '17'],
    ['10', '10', '17', '17'],
    ['10', '10', '30', '31'],
  ]
    .map(probabilityOf)
    .map(Number)
  expect(rising).toEqual([...rising].sort((a, b) => a - b))
  expect(new Set(rising).size).toBe(rising.length)
  expect(probabilityOf(['10', '10', '30', '31'])).toBe('1.00')
})

test.each([
  ['the lowest value is not detected', ['not detected', '6']],
  ['the lowest value is a limit', ['<1', '7']],
  ['the value is a limit', ['10', '>50']],
  ['the sample before is a limit', ['10', '>50', '60']],
  ['the value may be in another unit', ['10', '100']],
])('no probability where %s', (_why, values) => {
  expect(currentBy('pd-serum', active(serum(values)))).toHaveLength(1)
  expect(probabilityOf(values)).toBe(undefined)
})

test('no probability across laboratories, and none for marrow, whose variation is not published', () => {
  const two = [...serum(['10'], { laboratory: 'North' }), ...serum(['', '18'], { laboratory: 'South' })]
  const [changed] = currentBy('pd-serum', active(two))
  expect(changed?.cautions).toContain('method-changed')
  expect(changed?.facts.probability).toBe(undefined)
  const marrow = active([], {
    marrow: [
      ['2024-06-03', '10'],
      ['2024-08-01', '40'],
    ],
  })
  expect(currentBy('pd-marrow', marrow)[0]?.facts).not.toHaveProperty('probability')
})

test('urine, light chains, significant relapse and escape say it too', () => {
  const urine = active(every4Weeks('urine-m-protein', 'mg/(24.h)', ['300', '300', '1500']))
  expect(currentBy('pd-urine', urine)[0]?.facts.probability).toMatch(/^[01]\.\d\d$/)
  const chains = [...every4Weeks('kappa-flc', 'mg/L', ['150', '150', '900', '1000']), ...every4Weeks('lambda-flc', 'mg/L', ['5', '5', '5', '5'])]
  expect(currentBy('pd-light-chain', active(chains))[0]?.facts.probability).toBe('1.00')
  expect(currentBy('significant-relapse', active(chains))[0]?.facts.probability).toBe('1.00')
  const alone = active([...serum(['20', '20', '20', '20']), ...chains])
  expect(currentBy('light-chain-escape', alone)[0]?.facts.probability).toBe('1.00')
})

// Significant relapse asks for twice the lowest value; progression for 5 g/L more: the same samples make the second more probable.
test('each rule asks for its own level', () => {
  const given = active(serum(['10', '10', '20', '20.5']))
  const [relapse, progression] = [currentBy('significant-relapse', given)[0], currentBy('pd-serum', given)[0]]
  expect(Number(relapse?.facts.probability)).toBeLessThan(Number(progression?.facts.probability))
})

test.each([3, 10, 19.9, 20, 40, 49.9, 50, 70])('the level above %d is the one the rule compares with', (reference) => {
  for (const criterion of [RISES.serum, RISES.urine, RISES.dflc, RISES.significantSerum]) {
    expect(numberLevel(criterion)(reference)).toBeCloseTo(Number(levelFrom(criterion, decimal(reference)).at), 9)
  }
})

test('the courses are all there is, and a long level one stays the likeliest', () => {
  const samples = Array.from({ length: 20 }, (_, at) => ({ day: at * 28, log: 2 + (at % 2) * 0.05 }))
  const courses = possibleCourses(samples, 0.08)
  expect(courses.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 9)
  expect(courses[0]?.risen).toBe(0)
  expect(courses[0]?.weight).toBeGreaterThan(0.5)
  expect(trueRise(samples, 0, 0.08, numberLevel(RISES.serum))).toBeLessThan(0.01)
})

test.each([
  ['1.00', 'More than 99 in 100'],
  ['0.99', 'About 99 in 100'],
  ['0.91', 'About 91 in 100'],
  ['0.90', 'About 9 in 10'],
  ['0.86', 'About 9 in 10'],
  ['0.50', 'About 5 in 10'],
  ['0.10', 'About 1 in 10'],
  ['0.09', 'About 9 in 100'],
  ['0.01', 'About 1 in 100'],
  ['0.00', 'Less than 1 in 100'],
])('%s is "%s"', (probability, words) => {
  expect(probabilityWords(probability)).toBe(words)
})
