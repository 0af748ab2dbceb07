import type { Offset } from '../calendar.ts'
import type { Disease } from '../disease/disease.ts'
import type { Stretch } from '../kinetics/clone.ts'
import type { Laboratory } from '../laboratories/laboratory.ts'
import type { Person } from '../people/person.ts'
import type { CoursePiece } from '../rows/courseRow.ts'
import type { Visit } from './visit.ts'

/** One invented patient: who, what the clone did, when blood was drawn, and what the course file tells. */
export interface Story {
  readonly person: Person
  readonly disease: Disease
  /** Oldest first. */
  readonly clone: readonly Stretch[]
  /** Oldest first. */
  readonly visits: readonly Visit[]
  readonly course: readonly CoursePiece[]
  readonly laboratory: Laboratory
  /** Where visits before `since` were sent: patients change their laboratory. */
  readonly earlier: { readonly laboratory: Laboratory; readonly until: Offset } | null
  readonly left: { readonly on: Offset; readonly reason: 'transferred' | 'discharged' | 'died' } | null
}
