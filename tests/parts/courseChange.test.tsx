import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, test } from 'vitest'
import { Consequence } from '../../app/_parts/courseChange/Consequence.tsx'
import { CourseChange } from '../../app/_parts/courseChange/CourseChange.tsx'
import type { ChangeContent, CourseEvent } from '../../lib/results/index.ts'
import { assess, consequenceOf } from '../../lib/standing/index.ts'
import { day } from '../../lib/time/index.ts'
import { courseRecordView } from '../../lib/usecases/courseChanges/courseRecordView.ts'
import { planInForce } from '../../lib/usecases/plan/planInForce.ts'
import { consequenceView } from '../../lib/usecases/proposals/consequenceView.ts'
import { courseChange, phaseEvent, startEvent } from '../builders/courseChange.ts'
import { history, series } from '../builders/history.ts'
import { freshStore } from '../store/freshStore.ts'

const ON = day('2026-01-01')
const nobody = async () => ({ ok: false, kind: 'invalid', reason: 'not sent' }) as const
const ACTS = { change: nobody, takeBack: nobody }

const active = phaseEvent('2025-03-01', 'active')
const corrected: ChangeContent = {
  kind: 'phase-corrected',
  was: { phase: 'active', on: day('2025-03-01') },
  phase: 'active',
  began: day('2025-02-20'),
}

async function planOfTests() {
  const { store, dispose } = await freshStore()
  const plan = planInForce(store.reader, ON)
  await dispose()
  return plan
}

async function shown(later: readonly CourseEvent[], acts: typeof ACTS | null) {
  const changes = [
    courseChange(1, '2025-06-01', corrected, [active]),
    courseChange(2, '2025-06-02', { kind: 'line-ended', line: 1, ended: day('2025-06-01') }),
  ]
  const events = [active, startEvent('2025-03-10', 1), ...later]
  const assessment = assess({ ...history({ clinician: 'Dr North' }), events, courseChanges: changes }, await planOfTests(), ON)
  const patient = { patientId: 'P1', asOf: ON, courseRecord: courseRecordView(assessment), clinicians: ['Dr North', 'Dr South'] }
  return renderToStaticMarkup(<CourseChange patient={patient} acts={acts} />)
}

const plain = (markup: string) => markup.replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ')

describe('changes of the course', () => {
  test('a nurse reads what was said, by whom and why, and what came in beside it; no form', async () => {
    const markup = await shown([phaseEvent('2025-04-02', 'active')], null)
    const text = plain(markup)
    expect(text).toContain('Phase: active from 2025-02-20, in place of active from 2025-03-01 , by a physician on 2025-06-01: Typed by a person.')
    expect(text).toContain('Intake said active from 2025-03-01; kept, and does not count.')
    expect(text).toContain('Came in since, and does not count: active from 2025-04-02. Take the change back if it should.')
    expect(markup).not.toMatch(/<form|<summary/)
  })

  test('a physician has a form for everything, each with its reason, and takes back the last word on each thing', async () => {
    const markup = await shown([], ACTS)
    const says = [...markup.matchAll(/aria-label="([^":]+)/g)].map(([, one]) => one)
    expect(says).toEqual([
      'Record a phase',
      'Correct Active since 2025-02-20',
      'Take out Active since 2025-02-20',
      'Start a line',
      'Change the end of line 1',
      'Line 1 goes on',
      'Correct line 1',
      'Take out line 1',
      'Change care',
      'Change clinician',
      'Take this back',
      'Take this back',
    ])
    expect(markup.match(/name="reason"/g)?.length).toBe(says.length)
    expect(markup.match(/See what would change/g)?.length).toBe(says.length)
    expect(markup).not.toContain('name="stepsBack"')
  })
})

test('a consequence tells each thing that would be otherwise, now and then, and what does not change is not told', async () => {
  const plan = await planOfTests()
  const results = series('serum-m-protein', 'g/L', { '2025-03-09': '30', '2025-09-09': '20', '2025-11-30': '22' })
  const asCame = { ...history({ results }), events: [active, startEvent('2025-03-10', 1)] }
  const start = { kind: 'line-started', line: 2, began: day('2025-12-01'), regimen: ['daratumumab'], intent: 'relapse' } as const
  const would = { ...asCame, courseChanges: [courseChange(1, '2026-01-01', start)] }
  const view = consequenceView(consequenceOf(assess(asCame, plan, ON), assess(would, plan, ON)))
  const preview = { ...view, notes: ['A note.'], stamp: 'a stamp' }
  const text = plain(renderToStaticMarkup(<Consequence of="Start a line, of treatment" preview={preview} because="Something arrived." />))
  expect(text).toContain('What this would do Something arrived. A note.')
  expect(text).toContain('serum M-protein, baseline 30 g/L of 2025-03-09 22 g/L of 2025-11-30')
  expect(text).toContain('line 2 from 2025-12-01, daratumumab, relapse')
  expect(text).not.toContain('Clinician')
  const same = consequenceView(consequenceOf(assess(asCame, plan, ON), assess(asCame, plan, ON)))
  expect(same.isSame).toBe(true)
  expect(
    plain(renderToStaticMarkup(<Consequence of="Start a line, of treatment" preview={{ ...same, notes: [], stamp: 's' }} because={null} />)),
  ).toContain('Nothing that is said of this patient today would be otherwise.')
})
