import type { Course, MarrowSample } from '../../course/index.ts'
import type { CourseEventOf, Modality } from '../../results/index.ts'
import { type Day, daysBetween } from '../../time/index.ts'
import { decimalText } from '../../units/index.ts'
import { intervalText } from '../label.ts'
import type { CourseEventMark } from './coursePlan.ts'

const MODALITY: Readonly<Record<Modality, string>> = { xray: 'X-ray', ct: 'CT', 'pet-ct': 'PET-CT', mri: 'MRI' }

const lesions = (count: number, words: string): string => `${count} ${words}${count === 1 ? '' : 's'}`

function marrowSays({ percent, mrd }: MarrowSample): string {
  const cells = percent === null ? 'plasma cells not told' : `plasma cells ${intervalText(percent, null)} %`
  return `marrow: ${cells}${mrd === null ? '' : `, MRD ${mrd}`}`
}

function imagingSays({ modality, lyticLesions, focalLesions5mm, newLesions, growthPercent }: CourseEventOf<'imaging'>): string {
  const seen = [
    ...(lyticLesions === null ? [] : [lesions(lyticLesions, 'lytic lesion')]),
    ...(focalLesions5mm === null ? [] : [`${lesions(focalLesions5mm, 'focal lesion')} of 5 mm or more`]),
    ...(newLesions === null ? [] : [lesions(newLesions, 'new lesion')]),
    ...(growthPercent === null ? [] : [`growth ${decimalText(growthPercent)} %`]),
  ]
  return `${MODALITY[modality]}: ${seen.length === 0 ? 'no lesions told' : seen.join(', ')}`
}

/** Marrow examinations and imaging, oldest first. What else a marrow showed (abnormalities) is typed text and stands on the page of the risk, not here. */
export function courseEvents({ marrow, imaging }: Pick<Course, 'marrow' | 'imaging'>, from: Day): readonly CourseEventMark[] {
  const of = (kind: CourseEventMark['kind'], on: Day, says: string): CourseEventMark => ({ day: daysBetween(from, on), kind, says })
  return [
    ...marrow.map((sample) => of('marrow', sample.on, marrowSays(sample))),
    ...imaging.map((event) => of('imaging', event.on, imagingSays(event))),
  ].toSorted((a, b) => a.day - b.day)
}
