/**
 * The door for parts that run in a browser: what lays out and reads a plan that was made on the server. Behind it stands no other room and no library but
 * the scales, so that neither rules nor calendars are sent to a browser; a test holds that.
 */
export { type PanelLayout, panelLayout } from './course/courseAxis.ts'
export {
  COURSE_MODES,
  type CourseEventMark,
  type CourseMode,
  type CoursePanel,
  type CoursePlan,
  type CoursePoint,
  type CourseSeries,
  type CourseSpan,
  type DayCount,
  type Replaced,
  type Stretch,
} from './course/coursePlan.ts'
export { courseTable } from './course/courseTable.ts'
export { dayAt, dayCount } from './course/dayAt.ts'
export { mainLaboratoryOf } from './course/mainLaboratoryOf.ts'
export { type PackedCourse, packCourse, unpackCourse } from './course/packed.ts'
export { NEAR_DAYS, type Reading, readingDays, readingOn, readingSays } from './course/reading.ts'
export { keptInside, type NamedStretch, namedStretches, SHORTEST_STRETCH, stretchSays, wholeCourse } from './course/stretches.ts'
export { timeTicks } from './timeTicks.ts'
