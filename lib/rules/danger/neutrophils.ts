import { DANGEROUS_COUNTS, dangerBelow } from '../dangerLevel.ts'
import { measured } from '../measured.ts'
import type { CourseRule } from '../rule.ts'
import { SOURCES } from '../sources.ts'

export const dangerNeutrophils: CourseRule = {
  id: 'danger-neutrophils',
  asks: 'Are neutrophils below 0.5 x 10^9/L?',
  source: `${SOURCES.ctcae5} grade 4`,
  check: (course) =>
    dangerBelow(
      course,
      { rule: 'danger-neutrophils', organDamage: false },
      { name: 'neutrophils', unit: '10*9/L', samples: measured(course, 'neutrophils') },
      DANGEROUS_COUNTS.neutrophils,
    ),
}
