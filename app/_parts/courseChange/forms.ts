import type { CourseRecordView } from '../../../lib/usecases/index.ts'
import type { TwoStepAct } from './useTwoSteps.ts'

/** What a physician may do to the course. */
export interface CourseActs {
  readonly change: TwoStepAct<null>
  readonly takeBack: TwoStepAct<null>
}

/** What each form of the course is about. */
export interface FormsProps {
  readonly patientId: string
  readonly today: string
  readonly act: TwoStepAct<null>
  readonly record: CourseRecordView
}
