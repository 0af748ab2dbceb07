import type { Offset } from '../calendar.ts'
import { bandName } from '../disease/isotype.ts'
import type { Story } from '../follow/story.ts'
import type { Visit } from '../follow/visit.ts'
import type { Measured } from '../kinetics/truth.ts'
import type { Laboratory } from '../laboratories/laboratory.ts'
import { type Printed, printed, printedMProtein } from '../laboratories/printed.ts'
import type { ResultRow } from './resultRow.ts'

/** What a laboratory writes beside every result of one sample. */
export interface SampleLabel {
  readonly collectedAt: string
  readonly reportedAt: string
  readonly accession: string
}

/** A band shows from about 0.3 g/L in serum (ours). */
const BAND_FROM = 0.3
/** Free light chains of the clone show a band from about this much, mg/L (ours). */
const LIGHT_BAND_FROM = 60

function resultRow(story: Story, laboratory: Laboratory, label: SampleLabel, analyte: Measured, value: Printed): ResultRow {
  const [low, high] = laboratory.prints[analyte].reference?.(story.person.sex) ?? ['', '']
  return {
    patient_id: story.person.id,
    collected_at: label.collectedAt,
    code: value.code,
    value: value.value,
    unit: value.unit,
    status: 'final',
    accession: label.accession,
    laboratory: laboratory.name,
    method: laboratory.methods[analyte] ?? '',
    reference_low: low,
    reference_high: high,
    reported_at: label.reportedAt,
  }
}

function immunofixationRow(story: Story, laboratory: Laboratory, label: SampleLabel, code: string, band: string | null): ResultRow {
  return {
    patient_id: story.person.id,
    collected_at: label.collectedAt,
    code,
    value: band === null ? 'negative' : laboratory.band(band),
    unit: '',
    status: 'final',
    accession: label.accession,
    laboratory: laboratory.name,
    method: 'immunofixation',
    reported_at: label.reportedAt,
  }
}

/** The rows of one sample as its laboratory writes them. `serum` and `freeLight`: what the clone truly makes that day, g/L and mg/L. */
export function sampleRows(
  story: Story,
  visit: Visit,
  laboratory: Laboratory,
  label: SampleLabel,
  shown: ReadonlyMap<Measured, number>,
  made: { readonly serum: number; readonly freeLight: number },
): ResultRow[] {
  const directed = Object.keys(visit.changes).length > 0
  const rows = [...shown].map(([analyte, value]) => {
    const text =
      analyte === 'serum-m-protein' ? printedMProtein(laboratory, value, !directed && isFaintDay(visit.on)) : printed(laboratory, analyte, value)
    return resultRow(story, laboratory, label, analyte, text)
  })
  const seen = made.serum >= BAND_FROM || made.freeLight >= LIGHT_BAND_FROM
  const own = seen ? bandName(story.disease.isotype) : null
  const told = visit.changes['serum-immunofixation']
  if (visit.draws.includes('immunofixation')) {
    rows.push(immunofixationRow(story, laboratory, label, '25700-6', typeof told === 'string' ? told : own))
  }
  if (visit.draws.includes('urine-immunofixation')) {
    const inUrine = story.disease.urine > 0 && made.freeLight >= LIGHT_BAND_FROM
    rows.push(immunofixationRow(story, laboratory, label, '13440-1', inUrine ? `free ${story.disease.isotype.light}` : null))
  }
  return rows
}

/** A faint band is reported in words on some days, as a number below the limit on the others. */
function isFaintDay(on: Offset): boolean {
  return on % 3 === 0
}
