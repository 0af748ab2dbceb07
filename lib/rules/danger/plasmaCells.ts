import { dangerFrom } from '../dangerLevel.ts'
import { measured } from '../measured.ts'
import type { CourseRule } from '../rule.ts'
import { SOURCES } from '../sources.ts'

export const dangerPlasmaCells: CourseRule = {
  id: 'danger-plasma-cells',
  asks: 'Are circulating plasma cells at or above 5 %?',
  source: SOURCES.plasmaCellLeukaemia2021,
  check: (course) =>
    dangerFrom(
      course,
      { rule: 'danger-plasma-cells', organDamage: false },
      { name: 'circulating-plasma-cells', unit: '%', samples: measured(course, 'circulating-plasma-cells') },
      '5',
    ),
}
