import type { Course } from '../course/index.ts'
import type { DueTest } from '../plan/index.ts'
import type { Assessment } from '../standing/index.ts'
import type { Day } from '../time/index.ts'
import { dayText } from './dayText.ts'
import { itemOf } from './itemOf.ts'
import { offersOf } from './offers.ts'
import { DUE_WORDS, SENTENCES } from './sentences.ts'
import type { Sheet, SheetDue } from './sheet.ts'
import type { SheetTest } from './sheetTest.ts'
import { TEST_WORDS } from './testWords.ts'

/** What is asked for: which tests, the physician's own words, the day of the visit, and what the reader was given before. */
export interface SheetAsked {
  readonly chosen: readonly SheetTest[]
  /** As typed, and kept that way; null where nothing was. */
  readonly own: string | null
  readonly visitOn: Day | null
  /** Sheets released before, withdrawn ones too: the paper is in the reader's hands either way. */
  readonly earlier: readonly Sheet[]
}

function dueByDay(due: readonly DueTest[], today: Day): readonly SheetDue[] {
  const days = [...new Set(due.map(({ dueOn }) => dueOn))].toSorted()
  return days.map((on) => ({
    on,
    day: dayText(on),
    hasPassed: on < today,
    tests: due.filter(({ dueOn }) => dueOn === on).map(({ group }) => DUE_WORDS[group]),
  }))
}

function whoOf({ patient: { givenName, familyName, id } }: Course): string {
  return [givenName, familyName].filter((part) => part !== null).join(' ') || `Patient number ${id}`
}

function nextSays(due: readonly SheetDue[], visitOn: Day | null): readonly string[] {
  return [
    ...(due.length === 0 ? [SENTENCES.nothingDue] : []),
    ...(due.some(({ hasPassed }) => hasPassed) ? [SENTENCES.hasPassed] : []),
    visitOn === null ? SENTENCES.noVisit : SENTENCES.visit(dayText(visitOn)),
  ]
}

/** The sheet for one patient on one day. Pure: the same assessment and choices give the same sheet. */
export function sheetOf({ course, due, asOf }: Pick<Assessment, 'course' | 'due' | 'asOf'>, asked: SheetAsked): Sheet {
  const { chosen, own, visitOn, earlier } = asked
  const tests = offersOf(course).filter(({ test }) => chosen.includes(test))
  const items = tests.flatMap(({ test }) => itemOf(test, course, earlier) ?? [])
  const days = dueByDay(due, asOf)
  return {
    who: whoOf(course),
    born: dayText(course.patient.birthDate),
    madeOn: asOf,
    madeOnDay: dayText(asOf),
    intro: SENTENCES.intro,
    items,
    notMeasured: tests.filter(({ test }) => !items.some((item) => item.test === test)).map(({ test }) => TEST_WORDS[test].name),
    notes: course.held.length > 0 ? [SENTENCES.checked] : [],
    due: days,
    next: nextSays(days, visitOn),
    own,
    caution: SENTENCES.caution,
  }
}
