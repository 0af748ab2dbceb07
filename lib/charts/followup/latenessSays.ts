import type { Figures } from '../../followup/index.ts'
import { countText, daysText } from './auditWords.ts'

type Told = Pick<Figures, 'lateness' | 'lateBins' | 'onTime'>

/** How late the late tests were, in one sentence. */
export function latenessSays({ lateness, lateBins, onTime }: Told): string {
  if (onTime.due === 0) return 'No test was due in this period, so none was late.'
  if (lateness === null)
    return `No test was done late${onTime.missed === 0 ? '' : `; ${onTime.missed} ${onTime.missed === 1 ? 'was' : 'were'} missed`}.`
  if (lateBins.length === 0) {
    return `Only ${countText(lateness.count, 'test')} ${lateness.count === 1 ? 'was' : 'were'} done late: too few to show by days without showing whose they were.`
  }
  return `Half of the late tests were done within ${daysText(lateness.median)} days after their due day, nine of ten within ${daysText(lateness.p90)}.`
}

/** What the distribution rests on. */
export function latenessNotes({ lateness, lateBins, onTime }: Told): readonly string[] {
  if (lateness === null) return []
  return [
    `${lateness.count} of ${countText(onTime.due, 'test')} due ${lateness.count === 1 ? 'was' : 'were'} done late. A test is late once its grace has ended; its days count from the due day.`,
    ...(onTime.missed === 0
      ? []
      : [`Not in the picture: ${onTime.missed} missed ${onTime.missed === 1 ? 'test, which has' : 'tests, which have'} no day.`]),
    ...(lateBins.length === 0
      ? []
      : ['A bar is empty or stands for at least five tests; bars are made wider, and the last one left open, until that holds.']),
  ]
}
