import { DANGEROUS_COUNTS, dangerBelow } from '../dangerLevel.ts'
import { measured } from '../measured.ts'
import type { CourseRule } from '../rule.ts'
import { SOURCES } from '../sources.ts'

export const dangerPlatelets: CourseRule = {
  id: 'danger-platelets',
  asks: 'Are platelets below 25 x 10^9/L?',
  source: `${SOURCES.ctcae5} grade 4`,
  check: (course) =>
    dangerBelow(
      course,
      { rule: 'danger-platelets', organDamage: false },
      { name: 'platelets', unit: '10*9/L', samples: measured(course, 'platelets') },
      DANGEROUS_COUNTS.platelets,
    ),
}
