import type { Course, Marker } from '../../course/index.ts'
import { allHold, atLeast, below, decimal, decimalText } from '../../units/index.ts'
import { anyCensored, when } from '../cautions.ts'
import { evidenceOf, keptText } from '../evidence.ts'
import { ratioOf } from '../excess.ts'
import type { Finding } from '../finding.ts'
import { twoSampleFindings } from '../limit.ts'
import { marrowPercents } from '../marrow.ts'
import type { CourseRule } from '../rule.ts'
import { findingsOfRuns } from '../runs.ts'
import { SMOULDERING_FROM } from '../smouldering.ts'
import { SOURCES } from '../sources.ts'

const ABOUT = { rule: 'reclassify', organDamage: false } as const
const MYELOMA = decimal('60')

function byProtein(marker: Marker, limit: typeof MYELOMA): Finding[] {
  return twoSampleFindings({
    about: ABOUT,
    of: marker,
    holds: ({ value }) => atLeast(value, limit),
    tells: (sample) => ({
      window: 'within-30-days',
      excess: ratioOf(sample.value.low, limit),
      facts: { marker: marker.name, value: keptText(sample, marker.unit), limit: `${decimalText(limit)} ${marker.unit}` },
    }),
  })
}

function byMarrow(course: Course): Finding[] {
  const { marrow: limit } = SMOULDERING_FROM
  const marrows = marrowPercents(course)
  return findingsOfRuns(ABOUT, marrows, (at) => {
    const marrow = marrows[at]
    const certainty = marrow === undefined ? 'no' : allHold(atLeast(marrow.value, limit), below(marrow.value, MYELOMA))
    if (marrow === undefined || certainty === 'no') return null
    return {
      certainty,
      state: 'met',
      shown: () => ({
        window: 'within-30-days',
        cautions: when(anyCensored(marrow.value), 'censored'),
        evidence: [evidenceOf('current', 'marrow-plasma-cells', '%', marrow)],
        facts: { marker: 'marrow-plasma-cells', value: keptText(marrow, '%'), on: marrow.on, limit: `${decimalText(limit)} %` },
        excess: ratioOf(marrow.value.low, limit),
      }),
    }
  })
}

export const reclassify: CourseRule = {
  id: 'reclassify',
  asks: 'Recorded as MGUS: is M-protein at or above 30 g/L in serum or 500 mg/24 h in urine, or are marrow plasma cells from 10 to below 60 %?',
  source: `thresholds of smouldering myeloma, ${SOURCES.imwg2014}`,
  check: (course) => {
    if (course.phase?.phase !== 'mgus') return []
    const { 'serum-m-protein': serum, 'urine-m-protein': urine } = course.markers
    return [...byProtein(serum, SMOULDERING_FROM.serum), ...byProtein(urine, SMOULDERING_FROM.urine), ...byMarrow(course)]
  },
}
