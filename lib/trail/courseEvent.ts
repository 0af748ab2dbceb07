/** A change of a patient's course by a physician, by its number. What was said and why stay with it; its digest stands for them here. */
export interface CourseChanged {
  readonly patientId: string
  readonly changeId: number
  /** SHA-256 of the change this one takes the place of or takes back; null where only intake had told of it. */
  readonly before: string | null
  /** SHA-256 of the change as stored. */
  readonly after: string
}

/** What is logged of courses that physicians change. */
export type CourseEvent =
  | ({ readonly action: 'course-changed' } & CourseChanged)
  | ({ readonly action: 'course-change-taken-back' } & CourseChanged)
  /** What a change or a decision would do was shown, before it was kept or instead. */
  | { readonly action: 'consequence-shown'; readonly patientId: string }
