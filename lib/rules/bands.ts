import type { Course, Sample } from '../course/index.ts'
import type { Band } from '../results/index.ts'
import type { Day } from '../time/index.ts'
import { maybeAntibody } from './antibodyDrug.ts'
import { when } from './cautions.ts'
import { completeResponseOn } from './completeResponse.ts'
import type { Evidence, Finding, Window } from './finding.ts'
import type { Judgement } from './judgement.ts'
import { type About, findingsOfRuns } from './runs.ts'

const SPECIMENS = { serum: 'serum-immunofixation', urine: 'urine-immunofixation' } as const
type Specimen = keyof typeof SPECIMENS

/** One immunofixation that could be read as positive or negative; "cannot exclude" and unread texts say neither and are left out. */
interface Fixation {
  readonly on: Day
  readonly sample: Sample
  readonly bands: readonly Band[]
}

function fixationOf(sample: Sample): Fixation[] {
  const value = sample.results[0]?.value
  if (value?.kind !== 'immunofixation') return []
  if (value.reading.reading === 'negative') return [{ on: sample.on, sample, bands: [] }]
  return value.reading.reading === 'positive' ? [{ on: sample.on, sample, bands: value.reading.bands }] : []
}

function bandText({ heavy, light }: Band): string {
  return heavy === null ? `free ${light ?? 'light chain'}` : `Ig${heavy} ${light ?? '(light chain not named)'}`
}

function evidenceOf(role: Evidence['role'], { sample, on }: Fixation, specimen: Specimen): Evidence {
  const resultIds = sample.results.map((result) => result.id)
  return { role, analyte: SPECIMENS[specimen], value: sample.words ?? '', unit: '', comparator: null, collectedOn: on, resultIds }
}

/** True for the heavy and light chain of the diagnosis; false where either is not known: a type is never guessed. */
export function isOriginal({ heavyChain, involved }: Pick<Course, 'heavyChain' | 'involved'>, { heavy, light }: Band): boolean {
  if (heavyChain === null || involved === null) return false
  return heavy === (heavyChain === 'none' ? null : heavyChain) && light === involved.chain
}

/** Which bands count, and how soon they are looked at. */
export interface BandQuestion {
  readonly about: About
  readonly counts: (band: Band) => boolean
  readonly windows: { readonly unconfirmed: Window; readonly confirmed: Window }
}

/** Bands seen after a complete response, in serum and urine each by itself: unconfirmed by the last sample, confirmed by the last two. */
export function bandsAfterResponse(course: Course, { about, counts, windows }: BandQuestion): Finding[] {
  const responseOn = completeResponseOn(course)
  if (responseOn === null) return []
  return (Object.keys(SPECIMENS) as Specimen[]).flatMap((specimen) => {
    const fixations = course
      .samplesOf(SPECIMENS[specimen])
      .flatMap(fixationOf)
      .filter(({ on }) => on > responseOn)
    return findingsOfRuns(about, fixations, (at): Judgement | null => {
      const current = fixations[at]
      const band = current?.bands.find(counts)
      if (current === undefined || band === undefined) return null
      const before = fixations[at - 1]
      const previous = before?.bands.some(counts) ? before : null
      const state = previous === null ? 'unconfirmed' : 'confirmed'
      return {
        certainty: 'certain',
        state,
        shown: () => ({
          window: windows[state],
          cautions: [...when(previous === null, 'one-sample'), ...when(maybeAntibody(course, band, current.on), 'antibody-drug')],
          evidence: [...(previous === null ? [] : [evidenceOf('previous', previous, specimen)]), evidenceOf('current', current, specimen)],
          facts: { specimen: specimen === 'serum' ? 'Serum' : 'Urine', on: current.on, band: bandText(band), responseOn },
          excess: 1,
        }),
      }
    })
  })
}
