import { adjustedCalcium, type Course, hasNumber } from '../../course/index.ts'
import { valueText } from '../../rules/index.ts'
import { isExact } from '../../units/index.ts'
import type { Arithmetic } from './arithmetic.ts'
import { exactStep, num } from './steps.ts'

/** Calcium adjusted for the albumin of the same day; nothing where either is missing or known only as a limit. */
export function calciumSum({ markers, samplesOf }: Course): readonly Arithmetic[] {
  const calcium = markers.calcium.samples.at(-1)
  const albumin = samplesOf('albumin')
    .filter(hasNumber)
    .find(({ on }) => on === calcium?.on)
  if (calcium === undefined || albumin === undefined || !isExact(calcium.value) || !isExact(albumin.value)) return []
  const value = adjustedCalcium(calcium.value.low, albumin.value.low)
  const step = exactStep('Adjusted calcium', `${num(calcium.value.low)} + 0.02 x (40 - ${num(albumin.value.low)})`, value, 'mmol/L')
  return [
    {
      id: 'adjusted-calcium',
      name: 'Adjusted calcium',
      result: `${step.result} mmol/L`,
      from: [`total calcium ${valueText(calcium, 'mmol/L')}, albumin ${valueText(albumin, 'g/L')}, both of ${calcium.on}`],
      steps: [step],
      against: 'raised above 2.75 mmol/L, dangerous from 3.0 mmol/L (common practice)',
      source: 'after Payne, BMJ 1973;4:643',
      tellsAge: false,
    },
  ]
}
