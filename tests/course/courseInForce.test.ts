import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { courseInForce, traceCourse } from '../../lib/course/index.ts'
import type { ChangeContent, CourseChange, CourseEvent } from '../../lib/results/index.ts'
import { day } from '../../lib/time/index.ts'
import { courseChange, endEvent, phaseEvent, startEvent } from '../builders/courseChange.ts'
import { history, series } from '../builders/history.ts'

const ON = day('2026-01-01')
const SAID = '2025-06-01'

function course(events: readonly CourseEvent[], changes: readonly CourseChange[], asOf = ON) {
  return traceCourse({ ...history({ clinician: 'Dr North' }), events, courseChanges: changes }, asOf)
}

const overruled = (events: readonly CourseEvent[], courseChanges: readonly CourseChange[]) =>
  courseInForce({ ...history({}), events, courseChanges }).overruled.map(({ event, by, since }) => [event.event, event.on, by.id, since])

const active = phaseEvent('2025-03-01', 'active')
const smouldering = phaseEvent('2023-01-01', 'smouldering')
const corrected: ChangeContent = {
  kind: 'phase-corrected',
  was: { phase: 'active', on: day('2025-03-01') },
  phase: 'active',
  began: day('2025-02-20'),
}

describe('phases', () => {
  test('a phase a physician records stands beside what intake told', () => {
    const recorded = courseChange(1, SAID, { kind: 'phase-recorded', phase: 'active', began: day('2025-05-01') }, [smouldering])
    expect(course([smouldering], [recorded]).phases).toEqual([
      { phase: 'smouldering', since: '2023-01-01' },
      { phase: 'active', since: '2025-05-01' },
    ])
  })

  test('a corrected phase counts from its own day, and what intake said stays known', () => {
    const changes = [courseChange(1, SAID, corrected, [smouldering, active])]
    expect(course([smouldering, active], changes).phase).toEqual({ phase: 'active', since: '2025-02-20' })
    expect(overruled([smouldering, active], changes)).toEqual([['phase', '2025-03-01', 1, false]])
  })

  test('taken out, the phase before it counts', () => {
    const withdrawn = courseChange(1, SAID, { kind: 'phase-withdrawn', was: { phase: 'active', on: day('2025-03-01') } }, [smouldering, active])
    expect(course([smouldering, active], [withdrawn]).phase?.phase).toBe('smouldering')
  })

  test.each([
    ['another day of the same phase, told later', phaseEvent('2025-02-10', 'active'), { phase: 'active', since: '2025-02-20' }, true],
    ['another phase since, dated before it was said', phaseEvent('2025-04-01', 'smouldering'), { phase: 'active', since: '2025-02-20' }, true],
    [
      'another phase, dated after it was said: news',
      phaseEvent('2025-07-01', 'plasma-cell-leukaemia'),
      { phase: 'plasma-cell-leukaemia', since: '2025-07-01' },
      false,
    ],
    ['the phase before, dated before: history', phaseEvent('2020-01-01', 'mgus'), { phase: 'active', since: '2025-02-20' }, false],
    ['the same day as the physician said', phaseEvent('2025-02-20', 'active'), { phase: 'active', since: '2025-02-20' }, false],
  ] as const)('later intake: %s', (_why, later, phase, isOverruled) => {
    const events = [smouldering, active, later]
    const changes = [courseChange(1, SAID, corrected, [smouldering, active])]
    expect(course(events, changes).phase).toEqual(phase)
    expect(overruled(events, changes).filter(([, , , since]) => since === true)).toEqual(isOverruled ? [['phase', later.on, 1, true]] : [])
  })

  test('a phase in the past says nothing of what came after the next known one', () => {
    const recorded = courseChange(1, SAID, { kind: 'phase-recorded', phase: 'smouldering', began: day('2022-01-01') }, [active])
    const later = phaseEvent('2025-05-01', 'plasma-cell-leukaemia')
    expect(course([active, later], [recorded]).phase?.phase).toBe('plasma-cell-leukaemia')
    expect(course([active, phaseEvent('2023-01-01', 'mgus')], [recorded]).phases.map(({ phase }) => phase)).toEqual(['smouldering', 'active'])
  })

  test('a corrected diagnosis moves with its phase and keeps its chains; taken out, only its phase goes', () => {
    const diagnosis: CourseEvent = { event: 'diagnosis', on: day('2025-03-01'), phase: 'active', heavyChain: 'A', lightChain: 'kappa' }
    const moved = course([diagnosis], [courseChange(1, SAID, corrected, [diagnosis])])
    expect([moved.diagnosedOn, moved.heavyChain, moved.phase?.since]).toEqual(['2025-02-20', 'A', '2025-02-20'])
    const withdrawn = courseChange(1, SAID, { kind: 'phase-withdrawn', was: { phase: 'active', on: day('2025-03-01') } }, [diagnosis])
    const without = course([diagnosis], [withdrawn])
    expect([without.diagnosedOn, without.heavyChain, without.phase]).toEqual(['2025-03-01', 'A', null])
  })

  test('corrected twice, the last word holds; taken back, the word before', () => {
    const again: ChangeContent = {
      kind: 'phase-corrected',
      was: { phase: 'active', on: day('2025-02-20') },
      phase: 'active',
      began: day('2025-02-11'),
    }
    const two = [courseChange(1, SAID, corrected, [active]), courseChange(2, SAID, again, [active])]
    expect(course([active], two).phase?.since).toBe('2025-02-11')
    const back = courseChange(3, SAID, { kind: 'taken-back', changeId: 2 })
    expect(course([active], [...two, back]).phase?.since).toBe('2025-02-20')
    const both = [...two, back, courseChange(4, SAID, { kind: 'taken-back', changeId: 1 })]
    expect(course([active], both).phase?.since).toBe('2025-03-01')
    expect(overruled([active], both)).toEqual([])
  })
})

const start = startEvent('2025-03-10', 1)
const line = (began: string, regimen: readonly string[] = ['bortezomib']) => ({ line: 1, began: day(began), regimen, intent: null })

describe('treatment lines', () => {
  test('one that a physician starts is the next one', () => {
    const started = courseChange(1, SAID, { kind: 'line-started', line: 2, began: day('2025-05-20'), regimen: ['daratumumab'], intent: 'relapse' })
    const { lines, line: current } = course([active, start], [started])
    expect(lines.map(({ number, start: from, regimen }) => [number, from, regimen])).toEqual([
      [1, '2025-03-10', ['bortezomib']],
      [2, '2025-05-20', ['daratumumab']],
    ])
    expect(current?.intent).toBe('relapse')
  })

  test('a corrected start holds against what intake says later; an end that intake says later is another thing', () => {
    const changes = [courseChange(1, SAID, { kind: 'line-corrected', ...line('2025-03-05') }, [start])]
    const events = [active, startEvent('2025-03-15', 1, ['melphalan']), endEvent('2025-05-01', 1)]
    expect(course(events, changes).lines).toEqual([{ number: 1, start: '2025-03-05', end: '2025-05-01', regimen: ['bortezomib'], intent: null }])
    expect(overruled(events, changes)).toEqual([['line-start', '2025-03-15', 1, true]])
  })

  test('a named end holds; where it goes on, only an end dated later than the word counts', () => {
    const ended = courseChange(1, SAID, { kind: 'line-ended', line: 1, ended: day('2025-05-10') }, [start])
    expect(course([active, start, endEvent('2025-05-01', 1)], [ended]).line?.end).toBe('2025-05-10')
    const goesOn = courseChange(1, SAID, { kind: 'line-goes-on', line: 1 }, [start, endEvent('2025-05-01', 1)])
    expect(course([active, start, endEvent('2025-05-01', 1)], [goesOn]).line?.end).toBe(null)
    expect(course([active, start, endEvent('2025-05-20', 1)], [goesOn]).line?.end).toBe(null)
    expect(course([active, start, endEvent('2025-09-01', 1)], [goesOn]).line?.end).toBe('2025-09-01')
  })

  test('a line that never was is no line, until intake tells of one that began later than that was said', () => {
    const never = courseChange(1, SAID, { kind: 'line-withdrawn', line: 1 }, [start])
    expect(course([active, start], [never]).lines).toEqual([])
    expect(course([active, startEvent('2025-03-11', 1)], [never]).lines).toEqual([])
    expect(course([active, startEvent('2025-10-01', 1)], [never]).line?.start).toBe('2025-10-01')
  })

  test('the baseline is looked for at the line as corrected', () => {
    const results = series('serum-m-protein', 'g/L', { '2025-01-20': '50', '2025-03-09': '30', '2025-04-09': '20' })
    const asCame = { ...history({ results }), events: [active, start] }
    const changes = [courseChange(1, SAID, { kind: 'line-corrected', ...line('2025-01-25') }, [start])]
    expect(traceCourse(asCame, ON).markers['serum-m-protein'].baseline?.on).toBe('2025-03-09')
    expect(traceCourse({ ...asCame, courseChanges: changes }, ON).markers['serum-m-protein'].baseline?.on).toBe('2025-01-20')
  })
})

describe('care and clinician', () => {
  const maintenance = courseChange(1, SAID, { kind: 'care-changed', care: 'maintenance', began: day('2025-05-01') })

  test('a named care holds until the line says otherwise later', () => {
    expect(course([active, start], [maintenance])).toMatchObject({ care: 'maintenance', careSince: '2025-05-01' })
    expect(course([active, start, endEvent('2025-08-01', 1)], [maintenance])).toMatchObject({ care: 'off-treatment', careSince: null })
    expect(course([smouldering, start], [maintenance]).care).toBe(null)
  })

  test('the clinician a physician named holds against the patients file', () => {
    const changed = courseChange(1, SAID, { kind: 'clinician-changed', clinician: 'Dr South', instead: 'Dr North' })
    expect(course([], [changed]).patient.clinician).toBe('Dr South')
    expect(course([], [changed, courseChange(2, SAID, { kind: 'taken-back', changeId: 1 })]).patient.clinician).toBe('Dr North')
  })
})

test('as of an earlier day a change that was made later is none, as an exclusion is', () => {
  const changes = [courseChange(1, SAID, corrected, [active])]
  expect(course([active], changes, day('2025-05-31')).phase?.since).toBe('2025-03-01')
  expect(course([active], changes, day('2025-06-01')).phase?.since).toBe('2025-02-20')
})

const someDay = fc.constantFrom('2025-01-05', '2025-02-10', '2025-03-01', '2025-05-20', '2025-07-01', '2025-09-09')
const somePhase = fc.constantFrom('mgus' as const, 'smouldering' as const, 'active' as const)
const someEvent = fc.oneof(
  fc.tuple(someDay, somePhase).map(([on, phase]) => phaseEvent(on, phase)),
  fc.tuple(someDay, fc.constantFrom(1, 2)).map(([on, number]) => startEvent(on, number)),
  fc.tuple(someDay, fc.constantFrom(1, 2)).map(([on, number]) => endEvent(on, number)),
)
const someContent: fc.Arbitrary<ChangeContent> = fc.oneof(
  fc.tuple(somePhase, someDay).map(([phase, on]) => ({ kind: 'phase-recorded' as const, phase, began: day(on) })),
  fc.tuple(somePhase, someDay, somePhase, someDay).map(([phase, on, was, wasOn]) => ({
    kind: 'phase-corrected' as const,
    was: { phase: was, on: day(wasOn) },
    phase,
    began: day(on),
  })),
  fc.tuple(somePhase, someDay).map(([phase, on]) => ({ kind: 'phase-withdrawn' as const, was: { phase, on: day(on) } })),
  someDay.map((on) => ({ kind: 'line-corrected' as const, ...line(on) })),
  someDay.map((on) => ({ kind: 'line-ended' as const, line: 1, ended: day(on) })),
  fc.constant({ kind: 'line-goes-on' as const, line: 1 }),
  fc.constant({ kind: 'line-withdrawn' as const, line: 2 }),
)

test('laws: the order of arrival changes nothing, and with everything taken back the course is as it came', () => {
  fc.assert(
    fc.property(fc.array(someEvent, { maxLength: 6 }), fc.array(someContent, { maxLength: 5 }), fc.boolean(), (events, contents, early) => {
      const changes = contents.map((content, at) => courseChange(at + 1, SAID, content, early ? [] : events))
      const shown = (some: readonly CourseEvent[], all: readonly CourseChange[]) => {
        const { phases, lines, care } = course(some, all)
        return { phases, lines, care }
      }
      expect(shown(events.toReversed(), changes.toReversed())).toEqual(shown(events, changes))
      const back = changes.map(({ id }) => courseChange(id + changes.length, SAID, { kind: 'taken-back', changeId: id }))
      expect(shown(events, [...changes, ...back])).toEqual(shown(events, []))
    }),
    { numRuns: 300 },
  )
})
