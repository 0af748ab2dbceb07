import { type Course, lightChainPairs, ratioIntervalFor } from '../../course/index.ts'
import { decimalText, isExact } from '../../units/index.ts'
import type { Arithmetic } from './arithmetic.ts'
import { exactStep, num, roundedStep } from './steps.ts'

/** dFLC, the involved ratio and kappa/lambda of the latest sample with both chains. */
export function chainSums(course: Course): readonly Arithmetic[] {
  const pair = lightChainPairs(course).at(-1)
  if (pair === undefined || course.involved === null) return []
  const { involved, uninvolved, kappa, lambda, on } = pair
  if (!isExact(involved) || !isExact(uninvolved)) return []
  const from = [
    `involved ${decimalText(involved.low)} mg/L, uninvolved ${decimalText(uninvolved.low)} mg/L, one sample of ${on}`,
    `involved chain: ${course.involved.chain}, from the ${course.involved.from === 'diagnosis' ? 'diagnosis' : 'first ratio outside its interval'}`,
  ]
  const difference = involved.low.minus(uninvolved.low)
  const step = exactStep('dFLC', `${num(involved.low)} - ${num(uninvolved.low)}`, difference, 'mg/L')
  const base = { against: null, source: 'IMWG 2016 (Kumar, Lancet Oncol 17:e328)', tellsAge: false, from }
  const dflc: Arithmetic = { ...base, id: 'dflc', name: 'dFLC', result: `${step.result} mg/L`, steps: [step] }
  if (uninvolved.low.lte(0) || lambda.low.lte(0)) return [dflc]
  const ratio = roundedStep('Involved ratio', `${num(involved.low)} / ${num(uninvolved.low)}`, involved.low.div(uninvolved.low), 2)
  const plain = roundedStep('kappa / lambda', `${num(kappa.low)} / ${num(lambda.low)}`, kappa.low.div(lambda.low), 2)
  const interval = ratioIntervalFor(course, on)
  return [
    dflc,
    {
      ...base,
      id: 'involved-ratio',
      name: 'Involved ratio',
      result: ratio.result,
      steps: [ratio],
      source: 'IMWG 2014 (Rajkumar, Lancet Oncol 15:e538)',
    },
    {
      ...base,
      id: 'kappa-lambda',
      name: 'Kappa/lambda ratio',
      result: plain.result,
      steps: [plain],
      against: `reference interval ${interval.low} to ${interval.high}${interval.renal ? ', for reduced kidney function' : ''}`,
      source: interval.renal ? 'interval for eGFR below 60: Hutchison, CJASN 2008;3:1684' : 'interval: Katzmann, Clin Chem 2002;48:1437',
    },
  ]
}
