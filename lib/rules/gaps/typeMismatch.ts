import { antibodyBand, type Course } from '../../course/index.ts'
import type { Band, LightChain } from '../../results/index.ts'
import { when } from '../cautions.ts'
import type { Finding } from '../finding.ts'
import { lightAlone } from '../immunofixation/bandMeaning.ts'
import { bandText, type Fixation, fixationEvidence, fixationsOf, SPECIMEN_NAMES, SPECIMEN_WORDS, type Specimen } from '../immunofixation/fixation.ts'
import type { Judgement } from '../judgement.ts'
import type { FollowUpRule } from '../rule.ts'
import { findingsOfRuns } from '../runs.ts'

const ABOUT = { rule: 'type-mismatch', organDamage: false } as const

/** Light chains the bands name, when the involved one is not among them; null where they agree, name none, or there is no band. */
function others(bands: readonly Band[], involved: LightChain): readonly LightChain[] | null {
  const named = bands.flatMap(({ light }) => light ?? [])
  return named.length === bands.length && named.length > 0 && !named.includes(involved) ? [...new Set(named)] : null
}

function judged(course: Course, fixation: Fixation, facts: Readonly<Record<string, string>>): Judgement {
  const { on, specimen, bands } = fixation
  const cautions = when(
    bands.some((band) => antibodyBand(course, band, on) !== null),
    'antibody-drug',
  )
  return {
    certainty: 'certain',
    state: 'met',
    shown: () => ({
      window: 'next-visit',
      cautions,
      evidence: [fixationEvidence('current', fixation)],
      facts: { specimen: SPECIMEN_WORDS[specimen], on, ...facts },
      excess: 1,
    }),
  }
}

function mismatches(course: Course, specimen: Specimen, involved: LightChain): Finding[] {
  const fixations = fixationsOf(course, specimen)
  return findingsOfRuns(ABOUT, fixations, (at) => {
    const fixation = fixations[at]
    const seen = fixation === undefined ? null : others(fixation.bands, involved)
    if (fixation === undefined || seen === null) return null
    return judged(course, fixation, { seen: seen.join(' and '), involved, from: course.involved?.from ?? 'diagnosis' })
  })
}

/** Rules that say already that a light chain stands alone. */
const TELLS_IT: ReadonlySet<string> = new Set(['light-chain-escape', 'band-needs-typing'])

// Serum only: in urine the light chain alone is usual.
function heavyChainGone(course: Course, found: readonly Finding[]): Finding[] {
  if (found.some(({ rule, endedOn, facts }) => endedOn === null && TELLS_IT.has(rule) && (facts.meaning ?? 'light-alone') === 'light-alone'))
    return []
  const fixations = fixationsOf(course, 'serum')
  return findingsOfRuns(ABOUT, fixations, (at) => {
    const fixation = fixations[at]
    const band = fixation === undefined ? null : lightAlone(course, fixation)
    if (fixation === undefined || band === null) return null
    return judged(course, fixation, { seen: bandText(band), heavy: `Ig${course.heavyChain}` })
  }).filter(({ endedOn }) => endedOn === null)
}

export const typeMismatch: FollowUpRule = {
  id: 'type-mismatch',
  asks: 'Does the last immunofixation show only another light chain than the involved one, or in serum the involved one without the heavy chain of the diagnosis, and no other finding tells it?',
  source: '(ours)',
  check: (course, _due, found) => {
    const involved = course.involved?.chain
    if (involved === undefined) return []
    return [...SPECIMEN_NAMES.flatMap((specimen) => mismatches(course, specimen, involved)), ...heavyChainGone(course, found)]
  },
}
