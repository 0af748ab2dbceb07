import type { Analyte, HeavyChain, LabResult } from '../results/index.ts'
import type { Opening } from './baseline.ts'
import type { Immunoglobulin, ImmunoglobulinName, Sample } from './course.ts'
import { seriesOf } from './marker.ts'
import { hasNumber } from './sample.ts'

/** The class that carries the M-protein, and the unit it is kept in. IgE is measured in units no criterion is published in. */
const CLASSES: Partial<Record<HeavyChain, readonly [name: ImmunoglobulinName, unit: string]>> = {
  G: ['igg', 'g/L'],
  A: ['iga', 'g/L'],
  M: ['igm', 'g/L'],
  D: ['igd', 'mg/L'],
}

const BETA = /\bbeta\b|β/i

const saysBeta = ({ results }: Sample): boolean => results.some((result: LabResult) => BETA.test(result.method ?? ''))

/**
 * The quantitative immunoglobulin of the class of the M-protein as a series of its own, where electrophoresis measures that protein badly: IgA and
 * IgD, and any class whose results say in their method that it lies in the beta region. IMWG 2016 (Kumar, Lancet Oncol 17:e328); Dispenzieri,
 * Leukemia 2009;23:215. Null for others, without a recorded heavy chain, and where that class was never measured with a number.
 */
export function immunoglobulinOf(
  heavyChain: HeavyChain | 'none' | null,
  samplesOf: (analyte: Analyte) => readonly Sample[],
  opening: Opening | null,
): Immunoglobulin | null {
  const found = heavyChain === null || heavyChain === 'none' ? undefined : CLASSES[heavyChain]
  if (found === undefined) return null
  const [name, unit] = found
  const samples = samplesOf(name).filter(hasNumber)
  const byClass = heavyChain === 'A' || heavyChain === 'D'
  if (samples.length === 0 || (!byClass && ![...samplesOf('serum-m-protein'), ...samples].some(saysBeta))) return null
  return { ...seriesOf(name, unit, samples, opening), because: byClass ? 'class' : 'beta-region' }
}
