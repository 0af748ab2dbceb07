import { type Course, lightChainPairs, ratioIntervalFor } from '../course/index.ts'
import { above, decimal, decimalText, type Holds, type Interval, roundedText } from '../units/index.ts'
import { cytogeneticsOf, SMOULDERING_GENETICS, sure } from './cytogenetics.ts'
import { latestInvolvedRatioAbove } from './latestInputs.ts'
import { MGUS_FACTORS, MGUS_SERUM } from './mgusModel.ts'
import type { RiskAssessment } from './model.ts'
import type { RiskFactor, RiskFactorName } from './riskFactor.ts'
import { geneticsWords, intervalWords, type RiskPart } from './riskPart.ts'
import { GENETICS_POINTS, MARROW_POINTS, RATIO_POINTS, type Scale, SERUM_POINTS } from './smoulderingPoints.ts'
import { stagingParts } from './stagingParts.ts'
import { TWENTY, TWENTY_FACTORS } from './twentyTwoTwenty.ts'

type Told = Pick<RiskPart, 'value' | 'on'>
const UNKNOWN: Told = { value: null, on: null }

function serum({ markers }: Course): Told & { readonly of: Interval | null } {
  const sample = markers['serum-m-protein'].samples.at(-1)
  return sample === undefined ? { ...UNKNOWN, of: null } : { value: intervalWords(sample.value, 'g/L'), on: sample.on, of: sample.value }
}

function marrow(course: Course): Told & { readonly of: Interval | null } {
  const sample = course.marrow.findLast(({ percent }) => percent !== null)
  return sample === undefined || sample.percent === null
    ? { ...UNKNOWN, of: null }
    : { value: intervalWords(sample.percent, '%'), on: sample.on, of: sample.percent }
}

function involvedRatio(course: Course): Told {
  const pair = lightChainPairs(course).at(-1)
  if (pair !== undefined) {
    const { involved, uninvolved, on } = pair
    const exact = involved.high !== null && uninvolved.high !== null && involved.low.eq(involved.high) && uninvolved.low.eq(uninvolved.high)
    const ratio = exact && uninvolved.low.gt(0) ? ` = ${roundedText(involved.low.div(uninvolved.low), 2)}` : ''
    return { value: `${intervalWords(involved, '')} / ${intervalWords(uninvolved, '')} mg/L${ratio}`, on }
  }
  const plain = course.lightChains.at(-1)
  return plain === undefined
    ? UNKNOWN
    : { value: `kappa ${intervalWords(plain.kappa.value, '')}, lambda ${intervalWords(plain.lambda.value, 'mg/L')}`, on: plain.on }
}

function plainRatio(course: Course): Told {
  const pair = course.lightChains.at(-1)
  if (pair === undefined) return UNKNOWN
  return { value: `kappa ${intervalWords(pair.kappa.value, '')} / lambda ${intervalWords(pair.lambda.value, 'mg/L')}`, on: pair.on }
}

function heavyChain({ heavyChain: chain, diagnosedOn }: Course): Told {
  return chain === null ? UNKNOWN : { value: chain === 'none' ? 'no heavy chain' : `Ig${chain}`, on: diagnosedOn }
}

function ratioLimits(course: Course): string {
  const pair = course.lightChains.at(-1)
  const interval = pair === undefined ? null : ratioIntervalFor(course, pair.on)
  return interval === null ? 'outside its reference interval' : `outside ${interval.low} to ${interval.high}`
}

function counted(
  course: Course,
  factors: readonly RiskFactor[],
  told: Partial<Record<RiskFactorName, Told & { readonly threshold: string }>>,
): readonly RiskPart[] {
  return factors.map(({ name, input, holds }) => {
    const { value, on, threshold } = told[name] ?? { ...UNKNOWN, threshold: '' }
    return { input, value, on, threshold, met: holds(course, course.today), points: null }
  })
}

function mgusParts(course: Course): readonly RiskPart[] {
  return counted(course, MGUS_FACTORS, {
    'serum-m-protein': { ...serum(course), threshold: `at or above ${decimalText(MGUS_SERUM)} g/L` },
    'heavy-chain': { ...heavyChain(course), threshold: 'not IgG' },
    'light-chain-ratio': { ...plainRatio(course), threshold: ratioLimits(course) },
  })
}

function twentyParts(course: Course): readonly RiskPart[] {
  const over = (unit: string) => `above ${decimalText(TWENTY)}${unit}`
  return counted(course, TWENTY_FACTORS, {
    'marrow-plasma-cells': { ...marrow(course), threshold: over(' %') },
    'serum-m-protein': { ...serum(course), threshold: over(' g/L') },
    'light-chain-ratio': { ...involvedRatio(course), threshold: over('') },
  })
}

function geneticsPart(course: Course, points: number | null): RiskPart {
  const genetics = cytogeneticsOf(course)
  const met = genetics === null ? null : sure(SMOULDERING_GENETICS.some((name) => genetics.has(name)))
  const given = points === null || met === null ? null : met === 'certain' ? points : 0
  return { input: 'genetics', ...geneticsWords(course), threshold: `any of ${SMOULDERING_GENETICS.join(', ')}`, met, points: given }
}

function scaleWords(scale: Scale, unit: string): string {
  return scale
    .toReversed()
    .map(([limit, points]) => `above ${limit}${unit}: ${points}`)
    .join('; ')
}

/** Points a value surely gives; `met` tells whether it gives any. */
function scaled(input: string, scale: Scale, unit: string, told: Told, isAbove: (limit: string) => Holds | null): RiskPart {
  const threshold = scaleWords(scale, unit)
  const lowest = scale.at(-1)?.[0] ?? '0'
  if (isAbove('0') === null) return { input, ...told, threshold, met: null, points: null }
  const points = scale.find(([limit]) => isAbove(limit) === 'certain')?.[1] ?? 0
  return { input, ...told, threshold, met: isAbove(lowest), points }
}

function pointParts(course: Course): readonly RiskPart[] {
  const ofValue = (value: Interval | null) => (limit: string) => (value === null ? null : above(value, decimal(limit)))
  const [protein, cells] = [serum(course), marrow(course)]
  const told = ({ value, on }: Told): Told => ({ value, on })
  return [
    scaled('involved light-chain ratio', RATIO_POINTS, '', involvedRatio(course), (limit) => latestInvolvedRatioAbove(course, decimal(limit))),
    scaled('serum M-protein', SERUM_POINTS, ' g/L', told(protein), ofValue(protein.of)),
    scaled('marrow plasma cells', MARROW_POINTS, ' %', told(cells), ofValue(cells.of)),
    geneticsPart(course, GENETICS_POINTS),
  ]
}

/** The parts of one model of `riskAssessments`: each factor with its value, its day, what is asked of it, whether it is met, and the points it gives. */
export function riskParts(course: Course, model: RiskAssessment['model']): readonly RiskPart[] {
  switch (model) {
    case 'mgus':
      return mgusParts(course)
    case '20-2-20':
      return twentyParts(course)
    case '20-2-20-cytogenetics':
      return [...twentyParts(course), geneticsPart(course, null)]
    case 'smouldering-points':
      return pointParts(course)
    default:
      return stagingParts(course, model)
  }
}
