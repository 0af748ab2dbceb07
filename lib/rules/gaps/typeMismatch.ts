import type { Course, Sample } from '../../course/index.ts'
import type { Band, LightChain } from '../../results/index.ts'
import { maybeAntibody } from '../antibodyDrug.ts'
import { when } from '../cautions.ts'
import type { Finding } from '../finding.ts'
import type { Judgement } from '../judgement.ts'
import type { FollowUpRule } from '../rule.ts'
import { findingsOfRuns } from '../runs.ts'

const SPECIMENS = { 'serum-immunofixation': 'Serum', 'urine-immunofixation': 'Urine' } as const
type Specimen = keyof typeof SPECIMENS

/** The bands of an immunofixation that was read; null for texts that say nothing ("cannot exclude", unread). */
function bandsOf({ results }: Sample): readonly Band[] | null {
  const value = results[0]?.value
  if (value?.kind !== 'immunofixation') return null
  if (value.reading.reading === 'negative') return []
  return value.reading.reading === 'positive' ? value.reading.bands : null
}

/** Light chains the bands name, when the involved one is not among them; null where they agree, name none, or there is no band. */
function others(bands: readonly Band[], involved: LightChain): readonly LightChain[] | null {
  const named = bands.flatMap(({ light }) => light ?? [])
  return named.length === bands.length && named.length > 0 && !named.includes(involved) ? [...new Set(named)] : null
}

function mismatches(course: Course, specimen: Specimen, involved: LightChain): Finding[] {
  const read = course.samplesOf(specimen).filter((sample) => bandsOf(sample) !== null)
  return findingsOfRuns({ rule: 'type-mismatch', organDamage: false }, read, (at): Judgement | null => {
    const sample = read[at]
    const bands = sample === undefined ? null : bandsOf(sample)
    const seen = bands === null ? null : others(bands, involved)
    if (sample === undefined || bands === null || seen === null) return null
    const resultIds = sample.results.map((result) => result.id)
    return {
      certainty: 'certain',
      state: 'met',
      shown: () => ({
        window: 'next-visit',
        cautions: when(
          bands.some((band) => maybeAntibody(course, band, sample.on)),
          'antibody-drug',
        ),
        evidence: [{ role: 'current', analyte: specimen, value: sample.words ?? '', unit: '', comparator: null, collectedOn: sample.on, resultIds }],
        facts: { specimen: SPECIMENS[specimen], on: sample.on, seen: seen.join(' and '), involved, from: course.involved?.from ?? 'diagnosis' },
        excess: 1,
      }),
    }
  })
}

export const typeMismatch: FollowUpRule = {
  id: 'type-mismatch',
  asks: 'Does the last immunofixation show only another light chain than the involved one?',
  source: '(ours)',
  check: (course) => {
    const involved = course.involved?.chain
    if (involved === undefined) return []
    return (Object.keys(SPECIMENS) as Specimen[]).flatMap((specimen) => mismatches(course, specimen, involved))
  },
}
