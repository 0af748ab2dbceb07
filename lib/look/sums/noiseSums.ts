import type { Course, MarkerName } from '../../course/index.ts'
import { keptText } from '../../rules/index.ts'
import { ONE_SIDED_95, referenceChange, TOTAL_CV } from '../../statistics/index.ts'
import { decimal, decimalText, isExact } from '../../units/index.ts'
import { markerWords, unitAfter } from '../markerWords.ts'
import type { Arithmetic } from './arithmetic.ts'
import { num, numberStep, roundedStep } from './steps.ts'

/** dFLC takes the variation of the involved chain, which makes up most of it (ours). */
const VARIATION = { 'serum-m-protein': 'serum-m-protein', 'urine-m-protein': 'urine-m-protein', dflc: 'involved-flc' } as const satisfies Partial<
  Record<MarkerName, keyof typeof TOTAL_CV>
>
const PLACES = 8

/** The reference change value of each marker with a lowest value, and up to where noise alone may take it. */
export function noiseSums({ markers }: Course): readonly Arithmetic[] {
  return (Object.keys(VARIATION) as (keyof typeof VARIATION)[]).flatMap((name): Arithmetic[] => {
    const { window, lowest, unit } = markers[name]
    const mark = lowest[window.length - 1] ?? null
    if (mark === null || !isExact(mark.value) || mark.value.low.lte(0)) return []
    const cv = TOTAL_CV[VARIATION[name]]
    const s = numberStep('s', `sqrt(ln(1 + ${cv} ^ 2))`, Math.sqrt(Math.log1p(cv ** 2)), PLACES)
    const up = numberStep('Reference change value', `100 x (exp(${ONE_SIDED_95} x sqrt(2) x ${s.result}) - 1)`, 100 * referenceChange(cv).up, 2, '%')
    const reach = mark.value.low.times(decimal(up.result).div(100).plus(1))
    const words = markerWords(name)
    return [
      {
        id: `noise-${name}`,
        name: `Reference change value of ${words}`,
        result: `+${up.result} %`,
        from: [
          `total variation in stable untreated patients ${decimalText(decimal(cv).times(100))} %${name === 'dflc' ? ', that of the involved chain (ours)' : ''}; one-sided 95 %, z ${ONE_SIDED_95}`,
          `lowest ${keptText(mark.sample, unit)} of ${mark.sample.on}`,
        ],
        steps: [s, up, roundedStep('Noise alone reaches', `${num(mark.value.low)} x (1 + ${up.result} / 100)`, reach, 2, unit)],
        against: `a rise to above about ${reach.round(2).toFixed()}${unitAfter(unit)} is larger than noise`,
        source: 'Katzmann 2011, Clin Chem 57:1687; log-normal form Fokkema 2006, Lund 2015',
        tellsAge: false,
      },
    ]
  })
}
