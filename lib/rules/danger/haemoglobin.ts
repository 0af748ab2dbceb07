import { dangerBelow } from '../dangerLevel.ts'
import { DANGEROUS_HAEMOGLOBIN } from '../haemoglobin.ts'
import { measured } from '../measured.ts'
import type { CourseRule } from '../rule.ts'
import { SOURCES } from '../sources.ts'

export const dangerHaemoglobin: CourseRule = {
  id: 'danger-haemoglobin',
  asks: 'Is haemoglobin below 80 g/L?',
  source: `${SOURCES.ctcae5} grade 3`,
  check: (course) =>
    dangerBelow(
      course,
      { rule: 'danger-haemoglobin', organDamage: true },
      { name: 'haemoglobin', unit: 'g/L', samples: measured(course, 'haemoglobin') },
      DANGEROUS_HAEMOGLOBIN,
    ),
}
