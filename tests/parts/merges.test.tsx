import { renderToStaticMarkup } from 'react-dom/server'
import { expect, test } from 'vitest'
import { JoinedRecord, MadeOfRecords, PastMerges, PatientMerges, WaitingMerges } from '../../app/_parts/merge/index.ts'
import { day } from '../../lib/time/index.ts'
import type { MergeView, PatientMergesView, RecordView, WaitingMergeView } from '../../lib/usecases/index.ts'

const never = () => Promise.reject(new Error('nothing is sent while a page is drawn'))
const ACTS = { compare: never, propose: never, confirm: never, decline: never, end: never }

function merge(more: Partial<MergeView> = {}): MergeView {
  return {
    mergeId: 4,
    fromAddress: 'address-of-from',
    intoAddress: 'address-of-into',
    fromId: 'P-2/a',
    intoId: 'P-1',
    state: 'waiting',
    proposedBy: 'nurse',
    proposedAt: '2026-11-25T10:00:00.000Z',
    reason: 'Registered <twice>',
    decidedBy: null,
    decidedAt: null,
    decisionReason: null,
    endedBy: null,
    endedAt: null,
    endReason: null,
    own: false,
    ...more,
  }
}
const IN_FORCE = merge({ state: 'in force', decidedBy: 'physician', decidedAt: '2026-11-25T11:00:00.000Z' })

function record(patientId: string, more: Partial<RecordView> = {}): RecordView {
  return {
    patientId,
    address: `address-of-${patientId}`,
    name: null,
    birthDate: '1950',
    sex: 'female',
    clinician: null,
    status: 'followed',
    statusOn: null,
    results: 0,
    events: 0,
    held: 0,
    firstOn: null,
    lastOn: null,
    ...more,
  }
}

function waiting(more: Partial<WaitingMergeView> = {}): WaitingMergeView {
  const into = record('P-1', { name: "O'Brien, Null", results: 3, firstOn: day('2020-01-01'), lastOn: day('2026-01-01') })
  return { ...merge(), from: record('P-2/a'), into, differences: [], obstacle: null, notToConfirm: null, ...more }
}

const text = (markup: string) => markup.replaceAll(/<[^>]+>/g, ' ').replaceAll(/\s+/g, ' ')
const draw = (...views: readonly WaitingMergeView[]) => renderToStaticMarkup(<WaitingMerges merges={views} acts={ACTS} />)

test('what waits stands side by side: what is not recorded is said, and typed text is text', () => {
  const markup = draw(waiting())
  expect(markup).toContain('Registered &lt;twice&gt;')
  expect(text(markup)).toContain('Name O&#x27;Brien, Null not recorded Born 1950 1950')
  expect(text(markup)).toContain('Results 3 0')
  expect(text(markup)).toContain('First day 2020-01-01 nothing recorded')
  expect(text(markup)).toContain('They contradict each other in nothing.')
  expect(markup).toContain('href="/patients/address-of-P-2/a"')
})

test('it can be confirmed exactly where nothing speaks against it; declined always, and taken back where it is one’s own', () => {
  expect(draw(waiting())).toContain('They are one person: join them')
  const own = draw(waiting({ own: true, notToConfirm: 'You proposed this; somebody else has to confirm it.' }))
  expect(own).not.toContain('They are one person: join them')
  expect([text(own).includes('You proposed this'), own.includes('Take the proposal back'), draw(waiting()).includes('Decline it')]).toEqual([
    true,
    true,
    true,
  ])
  expect(draw()).toContain('None waits.')
})

const OF_P1: PatientMergesView = { patientId: 'P-1', joinedTo: null, joined: [], waiting: [], differences: [] }

test('a patient’s page says what it is made of, what the records do not tell alike, and what waits', () => {
  const alone = text(renderToStaticMarkup(<PatientMerges merges={OF_P1} acts={ACTS} />))
  expect(alone).toContain('This record stands for itself.')
  expect(alone).not.toContain('They contradict')
  expect(renderToStaticMarkup(<MadeOfRecords merges={OF_P1} />)).toBe('')
  const joined = { ...OF_P1, joined: [IN_FORCE], differences: ['The names differ; that of P-1 is shown.'] }
  expect(text(renderToStaticMarkup(<MadeOfRecords merges={joined} />))).toContain('Read together with record P-2/a , as one person.')
  const shown = text(renderToStaticMarkup(<PatientMerges merges={joined} acts={ACTS} />))
  expect(shown).toContain('P-2/a is read as part of P-1')
  expect(shown).toContain('confirmed by physician , 2026-11-25 11:00:00 UTC')
  expect(shown).toContain('The names differ; that of P-1 is shown.')
  expect(shown).toContain('Read them apart again')
  const waits = text(renderToStaticMarkup(<PatientMerges merges={{ ...OF_P1, waiting: [merge()] }} acts={ACTS} />))
  expect(waits).toContain('P-2/a: somebody proposed that this is the same person.')
})

test('the page of a joined record leads to the patient and can end it; what is past says who, when and why', () => {
  const page = renderToStaticMarkup(<JoinedRecord merge={IN_FORCE} end={never} />)
  expect(page).toContain('href="/patients/address-of-into"')
  expect(text(page)).toContain('Read them apart again')
  const ended = merge({ ...IN_FORCE, state: 'ended', endedBy: 'nurse', endedAt: '2026-11-26T09:00:00.000Z', endReason: 'Two sisters' })
  const declined = merge({
    state: 'declined',
    decidedBy: 'physician',
    decidedAt: '2026-11-25T11:00:00.000Z',
    decisionReason: 'Two brothers',
    mergeId: 5,
  })
  const past = text(renderToStaticMarkup(<PastMerges merges={[ended, declined]} />))
  expect(past).toContain('ended by nurse , 2026-11-26 09:00:00 UTC Ended because: Two sisters')
  expect(past).toContain('declined by physician , 2026-11-25 11:00:00 UTC Declined because: Two brothers')
})
