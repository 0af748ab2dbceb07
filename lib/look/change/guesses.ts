import { type Course, lightChainPairs, type Marker, type MarkerName } from '../../course/index.ts'
import {
  criterionFor,
  evolvingLevel,
  evolvingLightChain,
  evolvingSerum,
  immunoglobulinLevel,
  type RuleId,
  SMOULDERING_FROM,
} from '../../rules/index.ts'
import { type Decimal, decimal } from '../../units/index.ts'
import { type Subject, stepsAtLeast } from './nextSample.ts'

/** Levels published as they are, in the unit kept. */
const FIXED: Partial<Record<RuleId, readonly string[]>> = {
  'danger-light-chain-kidney': ['500'],
  'mde-light-chain': ['100'],
  'mde-calcium': ['2.76'],
  'relapse-calcium': ['2.76'],
  'danger-calcium': ['3'],
  'mde-renal': ['178'],
}
const TWICE = decimal('2')
const TIMES = decimal('100')

/** Levels above the lowest and the lowest confirmed value, as a next sample would be held against them. */
function risen(course: Course, marker: Marker<string>): readonly Decimal[] {
  const marks = [marker.lowest.at(-1), marker.lowestConfirmed[Math.max(marker.window.length - 1, 0)]]
  return marks.flatMap((mark) => {
    if (mark === null || mark === undefined) return []
    const from = mark.value.high ?? mark.value.low
    const level = marker.name in course.markers ? criterionFor(course, marker.name as MarkerName, from) : immunoglobulinLevel(course, from)
    return level === null ? [] : [level.at]
  })
}

const told = (level: Decimal | null): readonly Decimal[] => (level === null ? [] : [level])

/** Levels of a chain above what is subtracted from it, at both ends of what is known of that. */
function withOther(course: Course, levels: readonly Decimal[]): readonly Decimal[] {
  const other = lightChainPairs(course).at(-1)?.uninvolved
  const ends = other === undefined ? [decimal('0')] : [other.low, ...(other.high === null || other.high.eq(other.low) ? [] : [other.high])]
  return levels.flatMap((level) => ends.map((end) => level.plus(end)))
}

function levels(course: Course, rule: RuleId, { analyte, on }: Subject): readonly Decimal[] {
  const { markers, immunoglobulin } = course
  switch (rule) {
    case 'pd-serum':
      return immunoglobulin !== null && analyte === immunoglobulin.name ? risen(course, immunoglobulin) : risen(course, markers['serum-m-protein'])
    case 'pd-urine':
      return risen(course, markers['urine-m-protein'])
    case 'pd-light-chain':
    case 'light-chain-escape':
      return withOther(course, risen(course, markers.dflc))
    case 'evolving-light-chain':
      return withOther(course, told(evolvingLevel(evolvingLightChain(course), on)))
    case 'evolving-m-protein':
      return told(evolvingLevel(evolvingSerum(course), on))
    case 'mde-light-chain': {
      const uninvolved = lightChainPairs(course).at(-1)?.uninvolved.high ?? null
      return uninvolved === null ? [] : [uninvolved.times(TIMES)]
    }
    case 'significant-relapse': {
      const lowest = analyte === 'serum-m-protein' ? (markers['serum-m-protein'].lowest.at(-1)?.value.low ?? null) : null
      return lowest === null ? [] : [lowest.times(TWICE)]
    }
    case 'reclassify':
      return [analyte === 'urine-m-protein' ? SMOULDERING_FROM.urine : SMOULDERING_FROM.serum]
    default:
      return []
  }
}

/** Where the edge of a rule is likely to lie, in printed steps: the level, and the step above where the level itself does not count. */
export function guesses(course: Course, rule: RuleId, subject: Subject): readonly number[] {
  const all = [...levels(course, rule, subject), ...(FIXED[rule] ?? []).map(decimal)]
  return [...new Set(all.flatMap((level) => [stepsAtLeast(subject, level), stepsAtLeast(subject, level) + 1]))]
}
