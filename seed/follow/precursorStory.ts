import type { Offset } from '../calendar.ts'
import type { Chance } from '../chance.ts'
import type { Disease } from '../disease/disease.ts'
import type { PrecursorRisk } from '../disease/precursorDisease.ts'
import type { CoursePiece } from '../rows/courseRow.ts'
import { nextVisit } from './spacing.ts'
import type { Draw, Visit } from './visit.ts'

export interface PrecursorSpan {
  readonly phase: 'mgus' | 'smouldering'
  readonly risk: PrecursorRisk
  readonly from: Offset
  /** No planned visit from this day on. */
  readonly until: Offset
}

interface Step {
  /** Followed up to this many days after the diagnosis. */
  readonly before: number
  readonly days: number
}

const FOR_GOOD = Number.POSITIVE_INFINITY

/** Days between visits, from the follow-up plan (IMWG 2010). A step is left a little before its end: a visit that near to it has done it. */
const STEPS: Readonly<Record<PrecursorSpan['phase'], Readonly<Record<PrecursorRisk, readonly Step[]>>>> = {
  mgus: {
    low: [
      { before: 155, days: 182 },
      { before: FOR_GOOD, days: 728 },
    ],
    other: [
      { before: 155, days: 182 },
      { before: FOR_GOOD, days: 364 },
    ],
  },
  smouldering: {
    low: [
      { before: 72, days: 90 },
      { before: 430, days: 181 },
      { before: FOR_GOOD, days: 364 },
    ],
    other: [{ before: FOR_GOOD, days: 90 }],
  },
}

/** Imaging is asked for until five years have passed, or nearly. */
const IMAGING_DAYS = 5 * 365 - 28

const DRAWS: readonly Draw[] = ['core', 'immunoglobulins']

/** The planned visits of a precursor. */
export function precursorVisits({ phase, risk, from, until }: PrecursorSpan, chance: Chance): Visit[] {
  const steps = STEPS[phase][risk]
  const visits: Visit[] = []
  let on = from
  while (on < until) {
    visits.push({ on, draws: visits.length === 0 ? [...DRAWS, 'immunofixation'] : DRAWS, treated: 0, changes: {}, elsewhere: false })
    const elapsed = on - from
    on = nextVisit(on, steps.find(({ before }) => elapsed < before)?.days ?? 364, until, chance)
  }
  return visits
}

/** Diagnosis, marrow, and for smouldering disease the yearly imaging of the first five years (IMWG 2019). */
export function precursorCourse(span: PrecursorSpan, disease: Disease, end: Offset, chance: Chance): CoursePiece[] {
  const { heavy, light } = disease.isotype
  const pieces: CoursePiece[] = [{ on: span.from, event: 'diagnosis', phase: span.phase, heavy_chain: heavy, light_chain: light }]
  if (span.phase === 'mgus' && !chance.happens(0.3)) return pieces
  pieces.push({ on: span.from, event: 'marrow', plasma_cells_percent: disease.marrow.toFixed(0), abnormalities: disease.abnormalities.join(';') })
  if (span.phase === 'mgus') return pieces
  const modality = chance.oneOf(['mri', 'ct'])
  const findings = modality === 'mri' ? { focal_lesions_5mm: '0' } : { lytic_lesions: '0' }
  let last = Number.NEGATIVE_INFINITY
  for (let on = span.from; on < end && last < span.from + IMAGING_DAYS; on = nextVisit(on, 360, on, chance)) {
    pieces.push({ on, event: 'imaging', modality, ...findings, new_lesions: '0' })
    last = on
  }
  return pieces
}
