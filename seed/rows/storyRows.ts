import type { Calendar, Offset } from '../calendar.ts'
import type { Chance } from '../chance.ts'
import { laboratoryOf } from '../follow/laboratoryOf.ts'
import type { Story } from '../follow/story.ts'
import type { Visit } from '../follow/visit.ts'
import { cloneMass } from '../kinetics/clone.ts'
import { truthOf } from '../kinetics/truth.ts'
import type { Laboratory } from '../laboratories/laboratory.ts'
import { withMishap } from './mishaps.ts'
import type { ResultRow } from './resultRow.ts'
import { type SampleLabel, sampleRows } from './sampleRows.ts'
import { shownAt } from './shown.ts'

function labelOf(visit: Visit, laboratory: Laboratory, accession: number, dayOf: Calendar, chance: Chance): SampleLabel {
  const reportedOn: Offset = Math.min(0, visit.on + 1)
  const time = `T0${chance.whole(7, 9)}:${chance.whole(10, 59)}+01:00`
  return {
    collectedAt: dayOf(visit.on) + (laboratory.writesTime ? time : ''),
    reportedAt: dayOf(reportedOn) + (laboratory.writesTime ? 'T15:30+01:00' : ''),
    accession: `${laboratory.mark}${String(accession).padStart(7, '0')}`,
  }
}

/** All results of one patient, oldest first, each with the laboratory that reports it. `accession` gives the next number. */
export function storyRows(story: Story, dayOf: Calendar, accession: () => number, chance: Chance): { laboratory: Laboratory; rows: ResultRow[] }[] {
  const truthOn = truthOf(story.person, story.disease, story.clone)
  return story.visits.map((visit, index) => {
    const laboratory = laboratoryOf(story, visit)
    const truth = truthOn(visit.on, visit.treated)
    const shown = shownAt(visit, truth, chance)
    const made = { serum: truth['serum-m-protein'] ?? 0, freeLight: story.disease.freeLight * cloneMass(story.clone, visit.on) }
    const rows = sampleRows(story, visit, laboratory, labelOf(visit, laboratory, accession(), dayOf, chance), shown, made)
    // The last two samples stay whole: a haemolysed one would make the patient late, which is for the scenarios to say.
    return { laboratory, rows: index < story.visits.length - 2 ? withMishap(rows, chance) : rows }
  })
}
