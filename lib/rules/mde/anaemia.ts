import { below, decimalText } from '../../units/index.ts'
import { ratioOf } from '../excess.ts'
import { haemoglobinBar } from '../haemoglobin.ts'
import { twoSampleFindings } from '../limit.ts'
import { isPrecursor } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { SOURCES } from '../sources.ts'

export const mdeAnaemia: CourseRule = {
  id: 'mde-anaemia',
  asks: 'Is haemoglobin below 100 g/L, or more than 20 g/L below the lower limit (the laboratory’s, else men 130, women 120)?',
  source: `${SOURCES.imwg2014}; lower limits of WHO (from memory)`,
  check: (course) => {
    if (!isPrecursor(course)) return []
    return twoSampleFindings({
      about: { rule: 'mde-anaemia', organDamage: true },
      of: course.markers.haemoglobin,
      holds: (sample) => below(sample.value, haemoglobinBar(course, sample).level),
      tells: (sample) => {
        const { level, lower } = haemoglobinBar(course, sample)
        return {
          window: 'within-7-days',
          excess: ratioOf(level, sample.value.low),
          facts: { limit: `${decimalText(level)} g/L`, lower: `${decimalText(lower)} g/L` },
        }
      },
    })
  },
}
