/** Changing the course of a patient: the forms, what they would do, and what was changed. */
export { CourseChange } from './CourseChange.tsx'
export type { CourseActs } from './forms.ts'
export { TwoStepForm } from './TwoStepForm.tsx'
export { type TwoStepAct, useTwoSteps } from './useTwoSteps.ts'
