import { metByEvent, recorded } from '../events.ts'
import { isPrecursor } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { findingsOfRuns } from '../runs.ts'
import { SOURCES } from '../sources.ts'

export const mdeMri: CourseRule = {
  id: 'mde-mri',
  asks: 'Does MRI show more than one focal lesion of at least 5 mm?',
  source: SOURCES.imwg2014,
  check: (course) => {
    if (!isPrecursor(course)) return []
    const scans = course.imaging.filter((event) => event.modality === 'mri' && event.focalLesions5mm !== null)
    return findingsOfRuns({ rule: 'mde-mri', organDamage: false }, scans, (at) => {
      const scan = scans[at]
      const lesions = scan?.focalLesions5mm ?? 0
      if (scan === undefined || lesions <= 1) return null
      const value = String(lesions)
      return metByEvent('within-7-days', [recorded('focal-lesions', value, '1', scan.on)], { value, on: scan.on }, lesions / 2)
    })
  },
}
