import { type Course, isActive } from '../../course/index.ts'
import { ANALYTES, type Analyte } from '../../results/index.ts'
import type { Finding, RuleId } from '../../rules/index.ts'
import { leadingMarkers } from '../leading.ts'

const ACTIVE: Partial<Record<Analyte, readonly RuleId[]>> = {
  'serum-m-protein': ['pd-serum', 'significant-relapse'],
  'urine-m-protein': ['pd-urine', 'significant-relapse'],
}
const PRECURSOR: Partial<Record<Analyte, readonly RuleId[]>> = { 'serum-m-protein': ['evolving-m-protein'] }
const IMMUNOGLOBULINS: readonly string[] = ['igg', 'iga', 'igm', 'igd']

const isChain = (analyte: Analyte): boolean => analyte === 'kappa-flc' || analyte === 'lambda-flc'

/** The rules a next value of an analyte can first meet in the patient's phase; danger in every phase. */
export function rulesOf({ phase, measurableBy }: Course, analyte: Analyte): readonly RuleId[] {
  const danger: readonly RuleId[] = isChain(analyte) ? ['danger-light-chain-kidney'] : []
  if (phase === null) return danger
  if (isActive(phase.phase)) {
    if (isChain(analyte)) {
      const byChains = !measurableBy.some((by) => by === 'serum' || by === 'urine')
      return [byChains ? 'pd-light-chain' : 'light-chain-escape', 'significant-relapse', ...danger]
    }
    return IMMUNOGLOBULINS.includes(analyte) ? ['pd-serum'] : (ACTIVE[analyte] ?? [])
  }
  if (isChain(analyte)) return ['mde-light-chain', 'evolving-light-chain', ...danger]
  const reclassify: readonly RuleId[] = phase.phase === 'mgus' && analyte.endsWith('m-protein') ? ['reclassify'] : []
  return [...reclassify, ...(PRECURSOR[analyte] ?? [])]
}

/** The analyte a laboratory measures for a marker: of what is computed from light chains the involved one. Null where no blood or urine value is it. */
export function measuredFor({ involved }: Course, marker: string): Analyte | null {
  if (['dflc', 'involved-flc', 'involved-ratio'].includes(marker)) return involved === null ? null : `${involved.chain}-flc`
  return (ANALYTES as readonly string[]).includes(marker) && !marker.endsWith('immunofixation') && marker !== 'marrow-plasma-cells'
    ? (marker as Analyte)
    : null
}

/** The analytes that lead: of the markers the disease is followed by, and in active disease the involved light chain, which can escape. */
export function leadingAnalytes(course: Course): readonly Analyte[] {
  const markers = [...leadingMarkers(course).map(({ name }) => name), 'involved-flc']
  return [...new Set(markers.flatMap((marker) => measuredFor(course, marker) ?? []))]
}

/** The one analyte whose current value shows a finding; null where several do, or none that a laboratory prints as a number. */
export function analyteOf(course: Course, { evidence, rule }: Finding): Analyte | null {
  if (rule === 'risk-step' || rule === 'confirmation-overdue') return null
  const first = evidence.find(({ role }) => role === 'current')
  return first === undefined ? null : measuredFor(course, first.analyte)
}
