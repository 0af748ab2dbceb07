import { renderToStaticMarkup } from 'react-dom/server'
import { expect, test } from 'vitest'
import { type PatientActs, PatientPage } from '../../app/_parts/patient/index.ts'
import { answerChoices } from '../../lib/review/index.ts'
import { day } from '../../lib/time/index.ts'
import type { FindingView, PatientView, ResultView } from '../../lib/usecases/index.ts'
import { patientView } from '../../lib/usecases/patientView.ts'
import { assessed } from '../charts/assessed.ts'

const never = () => Promise.reject(new Error('nothing is sent while a page is drawn'))
const NURSE: PatientActs = { answer: never, takeBack: never, attribute: null, withdraw: null, exclude: null, restore: null }
const PHYSICIAN: PatientActs = { answer: never, takeBack: never, attribute: never, withdraw: never, exclude: never, restore: never }

function finding(rule: string, title: string, more: Partial<FindingView> = {}): FindingView {
  return {
    rule,
    key: JSON.stringify([rule, '', 'met', 'certain']),
    title,
    state: 'met',
    certainty: 'certain',
    window: 'within-7-days',
    since: day('2025-09-20'),
    endedOn: null,
    cautions: [],
    evidence: [],
    says: `${title}.`,
    probability: null,
    asks: 'Something.',
    source: 'Invented',
    answered: null,
    handedOver: null,
    lastDone: 0,
    takeBack: null,
    attributable: false,
    attribution: null,
    pastAnswers: [],
    correction: null,
    ...more,
  }
}

const result = (resultId: number, more: Partial<ResultView> = {}): ResultView => ({
  resultId,
  analyte: 'haemoglobin',
  collectedOn: day('2025-09-20'),
  received: '99 g/L',
  laboratory: 'North laboratory',
  method: null,
  fileName: 'results.csv',
  line: 7,
  version: 1,
  status: 'final',
  excluded: null,
  ...more,
})

const NOTE = { by: 'nurse-a', on: day('2025-09-25'), did: null, note: 'Called <the ward>', takenBack: null }
const ANAEMIA = finding('mde-anaemia', 'Anaemia', { attributable: true })
const SERUM = finding('pd-serum', 'Serum rise', { answered: { ...NOTE, bringBackOn: day('2025-10-28') } })
const DANGER = finding('danger-calcium', 'High calcium', { pastAnswers: [NOTE] })
const ATTRIBUTED = finding('mde-renal', 'Kidney', {
  attributable: true,
  attribution: { id: 4, cause: 'dehydration', by: 'doctor-b', on: day('2025-09-26'), until: day('2025-12-25'), worsePercent: 30 },
})

const AT_MOST = day('2025-11-05')
const base = patientView(assessed({}, '2025-10-01'))
const drawn = (more: Partial<PatientView>, acts?: PatientActs) =>
  renderToStaticMarkup(
    <PatientPage
      patient={{ ...base, bringBackAtMost: AT_MOST, answerChoices: answerChoices(AT_MOST, day('2025-10-01')), ...more }}
      {...(acts && { acts })}
    />,
  )
const plain = (markup: string) => markup.replaceAll(/<[^>]*>/g, '').replaceAll(/\s+/g, ' ')
const count = (markup: string, what: RegExp) => markup.match(what)?.length ?? 0

const ALL = {
  findings: [SERUM, DANGER, ANAEMIA, ATTRIBUTED],
  results: [result(1), result(2, { excluded: { by: 'doctor-b', on: day('2025-09-27'), reason: 'haemolysed' } })],
}

test('what waits stands first, what was answered below its own heading, with who, when, what and until when', () => {
  const text = plain(drawn(ALL))
  const places = ['High calcium', 'Anaemia', 'Kidney', '1 answered finding', 'Serum rise'].map((word) => text.indexOf(word))
  expect(places.every((place) => place >= 0)).toBe(true)
  expect(places.toSorted((a, b) => a - b)).toEqual(places)
  expect(text).toContain('Answered by nurse-a on 2025-09-25: Called &lt;the ward&gt;. Comes back on 2025-10-28 or with new evidence.')
  expect(plain(drawn({ findings: [SERUM] }))).toContain('Every finding is answered; none waits for anybody.')
})

test('another cause says until when it holds and what ends it sooner, by the number in force', () => {
  const text = plain(drawn(ALL))
  expect(text).toContain(
    'Another cause recorded by doctor-b on 2025-09-26: dehydration. Until 2025-12-25; comes back sooner when the value is 30 % worse.',
  )
})

test('a note on a danger is called a note, and its form has no day and says that the finding stays', () => {
  const markup = drawn({ findings: [DANGER] }, NURSE)
  expect(plain(markup)).toContain('Noted by nurse-a on 2025-09-25')
  expect(plain(markup)).toContain('A danger finding stays on the list, whatever is noted')
  expect(markup).not.toContain('type="date"')
  expect(plain(drawn({ findings: [{ ...SERUM, answered: null, pastAnswers: [NOTE] }] }))).toContain('Answered before by nurse-a')
})

test('a past finding keeps its notes, and no form', () => {
  const markup = drawn({ history: [{ ...SERUM, endedOn: day('2025-09-29'), answered: null, pastAnswers: [NOTE] }] }, PHYSICIAN)
  expect(plain(markup)).toContain('Answered before by nurse-a on 2025-09-25: Called &lt;the ward&gt;.')
  expect(markup).not.toContain('<form')
})

test('whoever only reads finds the words and no form', () => {
  const markup = drawn(ALL)
  expect(count(markup, /<form/g)).toBe(0)
  expect(count(markup, /class="disclosed/g)).toBe(0)
  expect(plain(markup)).toContain('haemoglobin 99 g/L of 2025-09-20 does not count: haemolysed by doctor-b on 2025-09-27')
})

test('a nurse answers each current finding, and attributes and excludes nothing', () => {
  const markup = drawn(ALL, NURSE)
  expect(count(markup, /<form/g)).toBe(4)
  expect(count(markup, /name="note"/g)).toBe(4)
  expect(markup).not.toMatch(/name="cause"|name="attributionId"|name="resultId"/)
})

test('a physician attributes where it can be, withdraws what is recorded, excludes what counts and restores what does not', () => {
  const markup = drawn(ALL, PHYSICIAN)
  expect([/name="note"/g, /name="cause"/g, /name="attributionId" value="4"/g, /name="resultId"/g].map((what) => count(markup, what))).toEqual([
    4, 1, 1, 2,
  ])
  expect(plain(markup)).toMatch(/Exclude: haemoglobin 99 g\/L of 2025-09-20/)
  expect(plain(markup)).toMatch(/Restore: haemoglobin 99 g\/L of 2025-09-20/)
})

test('the day of bringing back is from tomorrow to the next due test, that day to begin with, and the page says why', () => {
  const markup = drawn({ findings: [ANAEMIA] }, NURSE)
  const [field = ''] = /<input[^>]*type="date"[^>]*>/.exec(markup) ?? []
  expect(field).toContain('min="2025-10-02" max="2025-11-05"')
  expect(field).toContain('value="2025-11-05"')
  const [, why = ''] = /aria-describedby="([^"]*)"/.exec(field) ?? []
  expect(plain(markup.split(`id="${why}">`)[1] ?? '')).toMatch(/^At the latest 2025-11-05: never later than the next due test\./)
})

test('a value that does not count is struck through and says so in words, in the table and above it', () => {
  const markup = drawn(ALL)
  expect(count(markup, /<s class="received">99 g\/L<\/s>/g)).toBe(2)
  expect(count(markup, /does not count: /g)).toBe(2)
  expect(plain(markup)).toContain('1 value does not count in anything on this page:')
})

test('of a long course the newest fifty results are drawn', () => {
  const markup = drawn({ results: Array.from({ length: 120 }, (_, at) => result(at + 1, { line: at + 2 })) }, PHYSICIAN)
  expect(count(markup, /name="resultId"/g)).toBe(50)
  expect(plain(markup)).toContain('All results (120 values)')
  expect(plain(markup)).toContain('newest first: 50 of 120')
  expect(plain(drawn({ results: [] }))).toContain('No result is stored.')
})

test('forms are not printed, and what people recorded is', () => {
  const markup = drawn(ALL, PHYSICIAN)
  for (const form of markup.split('<form').slice(0, -1))
    expect(form.slice(form.lastIndexOf('<details'))).toMatch(/^<details class="disclosed no-print"/)
  for (const words of markup.matchAll(/<(?:p|ul) class="(on-record[^"]*|does-not-count[^"]*)"/g)) expect(words[1]).not.toContain('no-print')
})

test('ids are single, fields are labelled, headings go down by one level at a time', () => {
  const markup = drawn(ALL, PHYSICIAN)
  const ids = [...markup.matchAll(/ id="([^"]*)"/g)].map(([, id]) => id)
  expect(new Set(ids).size).toBe(ids.length)
  for (const [field] of markup.matchAll(/<(?:input|textarea)[^>]*>/g)) {
    if (field.includes('type="hidden"')) continue
    const [, id] = / id="([^"]*)"/.exec(field) ?? []
    expect(markup, field).toContain(`for="${id}"`)
  }
  const levels = [...markup.matchAll(/<h([1-6])/g)].map((found) => Number(found[1]))
  levels.forEach((level, at) => {
    expect(level - (levels[at - 1] ?? 0)).toBeLessThanOrEqual(1)
  })
})

test('two findings of one rule about one thing are both drawn', () => {
  const twice = ['1', '2'].map((result) => ({ ...ANAEMIA, key: JSON.stringify(['mde-anaemia', '', 'met', result]), says: `Result ${result}.` }))
  const text = plain(drawn({ findings: twice }, NURSE))
  expect([text.includes('Result 1.'), text.includes('Result 2.')]).toEqual([true, true])
})
