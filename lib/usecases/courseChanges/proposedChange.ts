import type { ChangeContent, CourseChange, CourseEvent } from '../../results/index.ts'
import type { CourseChanged, TrailEvent } from '../../trail/index.ts'
import type { Proposal } from '../proposals/proposal.ts'
import { courseChangeSha256 } from './courseChangeSha256.ts'

interface Proposed {
  readonly record: string
  readonly change: ChangeContent
  readonly told: readonly CourseEvent[]
  /** What it takes the place of, or takes back. */
  readonly before: CourseChange | null
  readonly event: (changed: CourseChanged) => TrailEvent
  readonly notes: readonly string[]
}

/** A change of the course as a proposal: tried on a history, or kept. */
export function proposedChange({ record, change, told, before, event, notes }: Proposed): Proposal<null> {
  return {
    record,
    content: { change, told: told.map((one) => JSON.stringify(one)) },
    added: (history, made) => {
      const id = Math.max(0, ...history.courseChanges.map((one) => one.id)) + 1
      return { ...history, courseChanges: [...history.courseChanges, { id, ...made, told, ...change }] }
    },
    keep: (tx, patientId, made) => {
      const id = tx.insertCourseChange({ patientId, ...made, told, ...change })
      return event({
        patientId,
        changeId: id,
        before: before === null ? null : courseChangeSha256(tx.recordOfChange(before.id) ?? patientId, before),
        after: courseChangeSha256(patientId, { id, ...made, told, ...change }),
      })
    },
    notes,
    value: null,
  }
}
