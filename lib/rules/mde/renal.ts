import { decimal, decimalText } from '../../units/index.ts'
import { ratioOf } from '../excess.ts'
import { twoSampleFindings } from '../limit.ts'
import { isPrecursor } from '../phases.ts'
import { compared } from '../printedLimit.ts'
import { CREATININE, FILTRATION, filtrationOn, kidneyDamaged } from '../renal.ts'
import type { CourseRule } from '../rule.ts'
import { SOURCES } from '../sources.ts'

export const mdeRenal: CourseRule = {
  id: 'mde-renal',
  asks: 'Is creatinine above 177 umol/L (2 mg/dL), or clearance (eGFR where no weight is known) below 40 mL/min?',
  source: SOURCES.imwg2014,
  check: (course) => {
    if (!isPrecursor(course)) return []
    return twoSampleFindings({
      about: { rule: 'mde-renal', organDamage: true },
      of: course.markers.creatinine,
      holds: (sample) => kidneyDamaged(course, sample),
      tells: (sample) => {
        const { value, limit, unit } = compared(sample, CREATININE)
        const filtration = filtrationOn(course, sample)
        const byFiltration = filtration === null || !Number.isFinite(filtration.rate) ? 1 : Number(FILTRATION) / Math.max(filtration.rate, 1)
        return {
          window: 'within-7-days',
          excess: Math.max(ratioOf(value.low, limit), byFiltration),
          facts: {
            limit: `${decimalText(limit)} ${unit}`,
            ...(filtration === null || !Number.isFinite(filtration.rate)
              ? {}
              : { filtration: decimalText(decimal(filtration.rate.toFixed(1))), filtrationBy: filtration.by }),
          },
        }
      },
    })
  },
}
