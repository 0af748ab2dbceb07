import { antibodyBand, type Course } from '../../course/index.ts'
import type { Band } from '../../results/index.ts'
import { when } from '../cautions.ts'
import { completeResponseOn } from '../completeResponse.ts'
import type { Finding, Window } from '../finding.ts'
import type { Judgement } from '../judgement.ts'
import { type About, findingsOfRuns } from '../runs.ts'
import { type BandMeaning, bandMeaning } from './bandMeaning.ts'
import { bandText, type Fixation, fixationEvidence, fixationsOf, SPECIMEN_NAMES, SPECIMEN_WORDS } from './fixation.ts'

/** Which bands count, and how soon they are looked at. */
export interface BandQuestion {
  readonly about: About
  readonly counts: readonly BandMeaning[]
  readonly windows: { readonly unconfirmed: Window; readonly confirmed: Window }
}

/** The different bands that were ever seen, each once. */
function bandsSeen(fixations: readonly Fixation[]): readonly Band[] {
  return [...new Map(fixations.flatMap(({ bands }) => bands).map((band) => [bandText(band), band])).values()]
}

const showsBand = (fixation: Fixation | undefined, band: Band): boolean =>
  fixation?.bands.some((other) => other.heavy === band.heavy && other.light === band.light) ?? false

/**
 * Bands seen after a complete response, in serum and urine each by itself, and each band by itself: unconfirmed by the last sample, confirmed by the
 * last two that show this band.
 */
export function bandsAfterResponse(course: Course, { about, counts, windows }: BandQuestion): Finding[] {
  const responseOn = completeResponseOn(course)
  if (responseOn === null) return []
  return SPECIMEN_NAMES.flatMap((specimen) => {
    const fixations = fixationsOf(course, specimen).filter(({ on }) => on > responseOn)
    const judge = (band: Band, at: number): Judgement | null => {
      const current = fixations[at]
      if (current === undefined || !showsBand(current, band)) return null
      const meaning = bandMeaning(course, current, band)
      if (!counts.includes(meaning)) return null
      const previous = showsBand(fixations[at - 1], band) ? (fixations[at - 1] ?? null) : null
      const state = previous === null ? 'unconfirmed' : 'confirmed'
      return {
        certainty: 'certain',
        state,
        shown: () => ({
          window: windows[state],
          cautions: [...when(previous === null, 'one-sample'), ...when(antibodyBand(course, band, current.on) !== null, 'antibody-drug')],
          evidence: [...(previous === null ? [] : [fixationEvidence('previous', previous)]), fixationEvidence('current', current)],
          facts: { specimen: SPECIMEN_WORDS[specimen], on: current.on, band: bandText(band), meaning, responseOn },
          excess: 1,
        }),
      }
    }
    return bandsSeen(fixations).flatMap((band) => findingsOfRuns(about, fixations, (at) => judge(band, at)))
  })
}
