import type { CourseEventOf } from '../../results/index.ts'
import { decimal, decimalText } from '../../units/index.ts'
import { metByEvent, recorded } from '../events.ts'
import { ratioOf } from '../excess.ts'
import type { Evidence } from '../finding.ts'
import type { Judgement } from '../judgement.ts'
import { runsAsActive } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { findingsOfRuns } from '../runs.ts'
import { SOURCES } from '../sources.ts'

const GROWTH = decimal('50')

function judge({ on, modality, newLesions, growthPercent }: CourseEventOf<'imaging'>): Judgement | null {
  const isNew = newLesions !== null && newLesions >= 1
  const hasGrown = growthPercent?.gte(GROWTH) ?? false
  if (!isNew && !hasGrown) return null
  const evidence: Evidence[] = []
  if (isNew) evidence.push(recorded('new-lesions', String(newLesions), '1', on))
  if (hasGrown && growthPercent !== null) evidence.push(recorded('lesion-growth', decimalText(growthPercent), '%', on))
  const facts = {
    on,
    modality,
    ...(isNew ? { lesions: String(newLesions) } : {}),
    ...(hasGrown && growthPercent !== null ? { growth: `${decimalText(growthPercent)} %` } : {}),
  }
  return metByEvent('within-7-days', evidence, facts, hasGrown && growthPercent !== null ? ratioOf(growthPercent, GROWTH) : 1)
}

export const pdLesion: CourseRule = {
  id: 'pd-lesion',
  asks: 'Does imaging record a new lesion, or growth of one by at least 50 %?',
  source: `${SOURCES.imwg2016} (numbers from memory)`,
  check: (course) => {
    if (!runsAsActive(course)) return []
    const opened = course.line?.start ?? course.phase?.since ?? course.today
    const scans = course.imaging.filter((scan) => scan.on > opened && (scan.newLesions !== null || scan.growthPercent !== null))
    return findingsOfRuns({ rule: 'pd-lesion', organDamage: true }, scans, (at) => {
      const scan = scans[at]
      return scan === undefined ? null : judge(scan)
    })
  },
}
