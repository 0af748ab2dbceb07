import type { Course, Marker, MarkerName, Measurement } from '../course/index.ts'
import type { TestGroup } from '../plan/index.ts'
import type { Decimal } from '../units/index.ts'
import { levelFrom, RISES, type RiseCriterion } from './criterion/rise.ts'
import { LIGHT_CHAIN_EVENT } from './lightChainEvent.ts'
import { isPrecursor, runsAsActive } from './phases.ts'
import type { RuleId } from './ruleId.ts'
import { SMOULDERING_FROM } from './smouldering.ts'

/** A series and the level its line is held against, in the unit kept. */
export interface Path {
  readonly name: MarkerName
  readonly unit: string
  readonly samples: readonly Measurement[]
  readonly level: Decimal
}

/** The criterion of one marker in the patient's phase: met when every path has reached its level. */
export interface ProjectedCriterion {
  readonly paths: readonly Path[]
  /** The test whose next sample would show it. */
  readonly group: TestGroup
  /** The rule that asks the criterion of a sample, and the analyte its evidence names. */
  readonly rule: RuleId
  readonly analyte: MarkerName
}

function fixed(marker: Marker, level: Decimal): Path {
  return { name: marker.name, unit: marker.unit, samples: marker.samples, level }
}

/** Where a next sample would count as progression: above the lowest value so far, where that is a limit above its upper end. */
function aboveLowest({ name, unit, window, lowest }: Marker, criterion: RiseCriterion): readonly Path[] {
  const reference = lowest.at(-1)?.value.high ?? null
  return reference === null ? [] : [{ name, unit, samples: window, level: levelFrom(criterion, reference).at }]
}

function precursorCriteria({ phase, markers }: Course): readonly ProjectedCriterion[] {
  const { 'serum-m-protein': serum, 'urine-m-protein': urine, 'involved-flc': involved, 'involved-ratio': ratio } = markers
  const { ratio: ratioLevel, involved: involvedLevel } = LIGHT_CHAIN_EVENT
  const lightChains: ProjectedCriterion = {
    paths: [fixed(ratio, ratioLevel), fixed(involved, involvedLevel)],
    group: 'free-light-chains',
    rule: 'mde-light-chain',
    analyte: 'involved-flc',
  }
  if (phase?.phase !== 'mgus') return [lightChains]
  return [
    { paths: [fixed(serum, SMOULDERING_FROM.serum)], group: 'serum-m-protein', rule: 'reclassify', analyte: 'serum-m-protein' },
    { paths: [fixed(urine, SMOULDERING_FROM.urine)], group: 'urine-24h', rule: 'reclassify', analyte: 'urine-m-protein' },
    lightChains,
  ]
}

function activeCriteria({ markers, measurableBy }: Course): readonly ProjectedCriterion[] {
  const { 'serum-m-protein': serum, 'urine-m-protein': urine, dflc } = markers
  const byChains = !measurableBy.some((by) => by === 'serum' || by === 'urine')
  return [
    { paths: aboveLowest(serum, RISES.serum), group: 'serum-m-protein', rule: 'pd-serum', analyte: 'serum-m-protein' },
    { paths: aboveLowest(urine, RISES.urine), group: 'urine-24h', rule: 'pd-urine', analyte: 'urine-m-protein' },
    { paths: byChains ? aboveLowest(dflc, RISES.dflc) : [], group: 'free-light-chains', rule: 'pd-light-chain', analyte: 'dflc' },
  ]
}

/** What a rising line may meet in the patient's phase; none without a recorded one. */
export function projectedCriteria(course: Course): readonly ProjectedCriterion[] {
  if (isPrecursor(course)) return precursorCriteria(course)
  return runsAsActive(course) ? activeCriteria(course) : []
}
