import { type Course, type Measurement, ratioIntervalFor } from '../course/index.ts'
import type { Day } from '../time/index.ts'
import { decimal, decimalText, isExact, roundedText } from '../units/index.ts'
import { latestCalcium } from './calcium.ts'
import { keptText, valueText } from './evidence.ts'
import { clearanceOn, egfrRateOn } from './renal.ts'

/** A value that is computed, not measured: shown with its formula and what it was computed from. */
export interface DerivedValue {
  readonly name: string
  /** With its unit. */
  readonly value: string
  readonly formula: string
  /** The measured values it rests on. */
  readonly from: string
  readonly on: Day
  /** What a reader must know before relying on it; null where nothing. */
  readonly mind: string | null
}

function rateText(rate: number, { value }: Measurement, unit: string): string {
  // Filtration falls as creatinine rises: from "<" follows "at least", from ">" "at most".
  const side = isExact(value) ? '' : value.high === null ? 'at most ' : 'at least '
  return `${side}${decimalText(decimal(rate.toFixed(0)))} ${unit}`
}

/** Creatinine that decides: of a censored one the end that is known. */
function filtrations({ patient, markers: { creatinine } }: Course): readonly DerivedValue[] {
  const sample = creatinine.samples.at(-1)
  if (sample === undefined) return []
  const from = `creatinine ${valueText(sample, creatinine.unit)}`
  const [rate, clearance] = [egfrRateOn(patient, sample), clearanceOn(patient, sample)]
  return [
    ...(rate === null
      ? []
      : [
          {
            name: 'eGFR',
            value: rateText(rate, sample, 'mL/min/1.73 m2'),
            formula: 'CKD-EPI 2021, creatinine (Inker, NEJM 2021;385:1737)',
            from,
            on: sample.on,
            mind: null,
          },
        ]),
    ...(clearance === null || patient.weightKg === null
      ? []
      : [
          {
            name: 'Creatinine clearance',
            value: rateText(clearance, sample, 'mL/min'),
            formula: 'Cockcroft-Gault (Nephron 1976;16:31)',
            from: `${from}, weight ${decimalText(patient.weightKg)} kg`,
            on: sample.on,
            mind: 'One weight a patient is kept, without its day.',
          },
        ]),
  ]
}

function adjustedCalcium(course: Course): readonly DerivedValue[] {
  const reading = latestCalcium(course)
  if (reading === null || reading.albumin === null || reading.adjusted === null) return []
  const { sample, albumin, adjusted } = reading
  return [
    {
      name: 'Adjusted calcium',
      value: isExact(adjusted) ? `${roundedText(adjusted.low, 2)} mmol/L` : keptText({ ...sample, value: adjusted, comparator: null }, 'mmol/L'),
      formula: 'Ca + 0.02 x (40 - albumin g/L), after Payne, BMJ 1973;4:643',
      from: `total calcium ${valueText(sample, 'mmol/L')}, albumin ${valueText(albumin, 'g/L')}`,
      on: sample.on,
      mind: 'Shown beside total calcium, never instead of it: it misleads where an M-protein binds calcium.',
    },
  ]
}

function ratioInterval(course: Course): readonly DerivedValue[] {
  const pair = course.lightChains.at(-1)
  if (pair === undefined) return []
  const { kappa, lambda, on } = pair
  const { low, high, renal } = ratioIntervalFor(course, on)
  const ratio = isExact(kappa.value) && isExact(lambda.value) && lambda.value.low.gt(0) ? roundedText(kappa.value.low.div(lambda.value.low), 2) : null
  return [
    {
      name: 'Kappa/lambda ratio',
      value: ratio ?? 'no number: a chain is known only as a limit',
      formula: `kappa / lambda; reference interval ${low} to ${high}${renal ? ', for reduced kidney function' : ''}`,
      from: `kappa ${valueText(kappa, 'mg/L')}, lambda ${valueText(lambda, 'mg/L')}`,
      on,
      mind: renal ? 'The interval is the one for the eGFR of that day.' : null,
    },
  ]
}

/** The latest eGFR, clearance, adjusted calcium and light-chain ratio, each where it can be computed. */
export function derivedValues(course: Course): readonly DerivedValue[] {
  return [...filtrations(course), ...adjustedCalcium(course), ...ratioInterval(course)]
}
