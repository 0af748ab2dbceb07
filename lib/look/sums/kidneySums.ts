import { type Course, cockcroftGault, egfr, type Measurement } from '../../course/index.ts'
import { valueText } from '../../rules/index.ts'
import { ageAt } from '../../time/index.ts'
import { type Decimal, decimal, decimalText, isExact } from '../../units/index.ts'
import type { Arithmetic, Step } from './arithmetic.ts'
import { num, numberStep, roundedStep } from './steps.ts'

const UMOL_PER_MG_DL = decimal('88.4')

/** Creatinine in mg/dL, as printed or converted; rounded to twelve decimals, so that what is shown is what is put in. */
function inMgDl(sample: Measurement): { readonly value: Decimal; readonly steps: readonly Step[] } {
  if (sample.printed?.printedUnit === 'mg/dL') return { value: sample.printed.printed.low, steps: [] }
  const exact = sample.value.low.div(UMOL_PER_MG_DL)
  const step = roundedStep('Creatinine in mg/dL', `${num(sample.value.low)} / 88.4`, exact, 6, 'mg/dL')
  return { value: decimal(step.result), steps: [step] }
}

/** eGFR and clearance of the latest creatinine, with the numbers put in. Nothing for a creatinine known only as a limit. */
export function kidneySums({ patient, markers }: Course): readonly Arithmetic[] {
  const sample = markers.creatinine.samples.at(-1)
  if (sample === undefined || !isExact(sample.value) || sample.value.low.lte(0)) return []
  const { value, steps } = inMgDl(sample)
  const { years, exact } = ageAt(patient.birthDate, sample.on)
  const female = patient.sex === 'female'
  const [k, a] = female ? ['0.7', '-0.241'] : ['0.9', '-0.302']
  const of = decimalText(value)
  const from = [
    `creatinine ${valueText(sample, markers.creatinine.unit)} on ${sample.on}`,
    `age that day ${years} completed years${exact ? '' : ' (or one less: the day of birth is not known)'}, ${patient.sex}`,
  ]
  const known = { creatinineMgDl: Number(value), age: years, sex: patient.sex }
  const put = `142 x min(${of} / ${k}, 1) ^ (${a}) x max(${of} / ${k}, 1) ^ (-1.2) x 0.9938 ^ ${years} x ${female ? '1.012' : '1'}`
  const rate = numberStep('eGFR', put, egfr(known), 0, 'mL/min/1.73 m2')
  const sums: Arithmetic[] = [
    {
      id: 'egfr',
      name: 'eGFR',
      result: `${rate.result} mL/min/1.73 m2`,
      from,
      steps: [...steps, rate],
      against: 'myeloma-defining below 40 mL/min (MGUS, smouldering)',
      source: 'CKD-EPI 2021, creatinine (Inker, NEJM 2021;385:1737)',
      tellsAge: true,
    },
  ]
  if (patient.weightKg === null) return sums
  const weight = decimalText(patient.weightKg)
  const clearance = cockcroftGault({ ...known, weightKg: Number(patient.weightKg) })
  const step = numberStep('Clearance', `(140 - ${years}) x ${weight} / (72 x ${of}) x ${female ? '0.85' : '1'}`, clearance, 1, 'mL/min')
  sums.push({
    id: 'clearance',
    name: 'Creatinine clearance',
    result: `${step.result} mL/min`,
    from: [...from, `weight ${weight} kg, kept without its day`],
    steps: [...steps, step],
    against: 'myeloma-defining below 40 mL/min (MGUS, smouldering)',
    source: 'Cockcroft and Gault, Nephron 1976;16:31',
    tellsAge: true,
  })
  return sums
}
