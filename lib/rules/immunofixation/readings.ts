import { type AntibodyGiven, antibodyBand, type Course, type Sample } from '../../course/index.ts'
import type { Band, Immunofixation } from '../../results/index.ts'
import { compareDays, type Day } from '../../time/index.ts'
import { type BandMeaning, bandMeaning } from './bandMeaning.ts'
import { type Fixation, fixationsOf, SPECIMEN_NAMES, SPECIMENS, type Specimen } from './fixation.ts'

/** One band, what it is against the diagnosis, and the therapeutic antibody it may be instead. */
export interface ReadBand {
  readonly band: Band
  readonly meaning: BandMeaning
  /** Only for a band that is new, or reported as faint (clinical.md 2). */
  readonly antibody: AntibodyGiven | null
}

/** One immunofixation: the text as received, how it was read, and what each band means. */
export interface FixationReading {
  readonly on: Day
  readonly specimen: Specimen
  readonly text: string
  readonly laboratory: string | null
  readonly corrected: boolean
  readonly reading: Immunofixation['reading']
  /** Empty unless it was read as positive. */
  readonly bands: readonly ReadBand[]
}

const FAINT = /\b(faint|weak|trace|very small|minor)\b/i

const isAntibodyType = ({ heavy, light }: Band): boolean => heavy === 'G' && light === 'kappa'

// New: an earlier immunofixation of the same specimen was read and did not show such a band.
function isNew(course: Course, { specimen, on }: Fixation): boolean {
  return fixationsOf(course, specimen).some((earlier) => earlier.on < on && !earlier.bands.some(isAntibodyType))
}

function readBands(course: Course, fixation: Fixation): readonly ReadBand[] {
  const doubtful = isNew(course, fixation) || FAINT.test(fixation.sample.words ?? '')
  return fixation.bands.map((band) => ({
    band,
    meaning: bandMeaning(course, fixation, band),
    antibody: doubtful ? antibodyBand(course, band, fixation.on) : null,
  }))
}

function readingOf(course: Course, specimen: Specimen, sample: Sample, fixations: ReadonlyMap<Day, Fixation>): FixationReading[] {
  const [result] = sample.results
  if (result?.value.kind !== 'immunofixation') return []
  const fixation = fixations.get(sample.on)
  return [
    {
      on: sample.on,
      specimen,
      text: result.provenance.valueText,
      laboratory: result.laboratory,
      corrected: result.status === 'corrected' || result.version > 1,
      reading: result.value.reading.reading,
      bands: fixation === undefined ? [] : readBands(course, fixation),
    },
  ]
}

/** Every immunofixation of serum and urine, newest first, serum before urine on one day. Nothing is left out: what cannot be read is among them. */
export function immunofixationReadings(course: Course): readonly FixationReading[] {
  return SPECIMEN_NAMES.flatMap((specimen) => {
    const fixations = new Map(fixationsOf(course, specimen).map((fixation) => [fixation.on, fixation]))
    return course.samplesOf(SPECIMENS[specimen]).flatMap((sample) => readingOf(course, specimen, sample, fixations))
  }).sort((a, b) => compareDays(b.on, a.on))
}
