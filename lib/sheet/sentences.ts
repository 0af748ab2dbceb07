import type { TestGroup } from '../plan/index.ts'
import type { GoodWay } from './testWords.ts'

/** Every other sentence of the sheet. What is put in are days and values as printed, never a word of a finding. */
export const SENTENCES = {
  intro: ['This sheet shows your test results in plain words.', 'Read it with your doctor or nurse, and ask all you want to ask.'],
  caution: [
    'This sheet helps you talk with your team.',
    'It does not take the place of that talk.',
    'It does not say what you have or what to take.',
    'Your doctor looks at all of it with you and decides with you.',
    'If you feel unwell, call your clinic and do not wait for the next visit.',
  ],
  first: 'This is your first result of this test.',
  same: 'It is the same as the one before.',
  up: (from: string, to: string) => `It went up from ${from} to ${to}.`,
  down: (from: string, to: string) => `It went down from ${from} to ${to}.`,
  bothTooLittle: 'Both times there was too little to measure.',
  unsure: 'We can not say if it went up or down, since one of the two is not a full number.',
  lookedAt: 'One result says little on its own, so your team will look at it with you.',
  lowestNow: 'No result was lower than this one in that time.',
  otherLaboratory: 'The one before came from another lab or was done in another way, so the two may not match.',
  oneUnit: (unit: string) => `The labs use more than one unit, so all are shown in ${unit} here.`,
  range: (low: string, high: string, unit: string) => `For this lab, normal is from ${low} to ${high} ${unit}.`,
  atLeast: (low: string, unit: string) => `For this lab, normal is ${low} ${unit} or more.`,
  atMost: (high: string, unit: string) => `For this lab, normal is ${high} ${unit} or less.`,
  corrected: (sheet: string, was: string, on: string) =>
    `Your sheet of ${sheet} said ${was} for ${on}. The lab has put that right: use the number here.`,
  changed: (sheet: string, was: string, on: string) => `Your sheet of ${sheet} said ${was} for ${on}. Use the number here.`,
  takenBack: (sheet: string, was: string, on: string) => `Your sheet of ${sheet} said ${was} for ${on}. That number does not count any more.`,
  notMeasured: 'These tests are not measured yet:',
  checked: 'Some of your results are still being checked, so they are not on this sheet yet.',
  visit: (day: string) => `Your next visit is on ${day}.`,
  noVisit: 'Ask your team for the day of your next visit.',
  hasPassed: 'If a day has gone by, ask your team about that test.',
  nothingDue: 'No test is planned right now, so ask your team what comes next.',
} as const

export const GOOD: Readonly<Record<GoodWay, string>> = {
  lower: 'A lower number is good.',
  'up-to-normal': 'A number in the normal range is good, and if it is low, a rise is good.',
  'down-to-normal': 'A number in the normal range is good, and if it is high, a fall is good.',
  normal: 'A number in the normal range is good.',
}

/** A test group of the plan, as a reader would ask for it. */
export const DUE_WORDS: Readonly<Record<TestGroup, string>> = {
  'serum-m-protein': 'blood test: M-protein',
  'free-light-chains': 'blood test: light chains',
  'blood-count': 'blood test: blood cells',
  chemistry: 'blood test: kidneys and calcium',
  'urine-24h': 'urine of one day and one night',
  immunoglobulins: 'blood test: antibodies',
  imaging: 'pictures of your bones',
}

export const LABELS = {
  this: 'This result',
  last: 'The one before',
  lowestOfLine: 'Lowest since this treatment began',
  lowestOfEndedLine: 'Lowest since your last treatment began',
  lowestSinceThen: 'Lowest since that day',
  lowestSince: (day: string) => `Lowest since ${day}`,
} as const
