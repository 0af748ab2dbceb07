import type { Course } from '../../course/index.ts'
import type { CourseEventOf } from '../../results/index.ts'
import { below, decimal, decimalText } from '../../units/index.ts'
import { metByEvent, recorded } from '../events.ts'
import type { Judgement } from '../judgement.ts'
import { isPrecursor } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { findingsOfRuns } from '../runs.ts'
import { SOURCES } from '../sources.ts'

const FEW_PLASMA_CELLS = decimal('10')

// The marrow that was known when the scan was made; where none was yet, the first one after.
function marrowAt(course: Course, scan: CourseEventOf<'imaging'>) {
  const counted = course.marrow.filter((sample) => sample.percent !== null)
  return counted.findLast((sample) => sample.on <= scan.on) ?? counted[0] ?? null
}

function judge(course: Course, scan: CourseEventOf<'imaging'>): Judgement | null {
  const lesions = scan.lyticLesions ?? 0
  const marrow = marrowAt(course, scan)
  const few = marrow?.percent ? below(marrow.percent, FEW_PLASMA_CELLS) : 'no'
  if (lesions < 1 || (lesions === 1 && few === 'certain')) return null
  const value = String(lesions)
  const percent = marrow?.percent ? { marrow: `${decimalText(marrow.percent.low)} %`, marrowOn: marrow.on } : {}
  const shown = metByEvent(
    'within-7-days',
    [recorded('lytic-lesions', value, '1', scan.on)],
    { value, on: scan.on, modality: scan.modality, ...percent },
    lesions,
  )
  return few === 'possible' && lesions === 1 ? { ...shown, certainty: 'possible' } : shown
}

export const mdeBone: CourseRule = {
  id: 'mde-bone',
  asks: 'Does X-ray, CT or PET-CT show an osteolytic lesion (more than one when marrow plasma cells are below 10 %)?',
  source: `${SOURCES.imwg2014}; more than one when plasma cells are below 10 % (from memory)`,
  check: (course) => {
    if (!isPrecursor(course)) return []
    const scans = course.imaging.filter((event) => event.modality !== 'mri' && event.lyticLesions !== null)
    return findingsOfRuns({ rule: 'mde-bone', organDamage: true }, scans, (at) => {
      const scan = scans[at]
      return scan === undefined ? null : judge(course, scan)
    })
  },
}
