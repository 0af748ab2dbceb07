import { calciumLimit, dangerous } from '../calcium.ts'
import { dangerFindings } from '../limit.ts'
import type { CourseRule } from '../rule.ts'

export const dangerCalcium: CourseRule = {
  id: 'danger-calcium',
  asks: 'Is calcium, total or adjusted for albumin, at or above 3.0 mmol/L (12 mg/dL)?',
  source: '(common practice); upper limit of ionised calcium 1.30 mmol/L (from memory)',
  check: (course) => {
    const limited = calciumLimit(course, { rule: 'danger-calcium', organDamage: true }, dangerous, 'same-day')
    return dangerFindings(limited, course.today)
  },
}
