import type { Course } from '../course/index.ts'
import { above, atLeast, below, decimalText, type Holds, type Interval } from '../units/index.ts'
import { cytogeneticsOf, DEL17P_SHARE, sure } from './cytogenetics.ts'
import { CREATININE_MG_DL, geneticFactors, HIGH_RISK_B2M, lowCreatinine, TRANSLOCATIONS } from './highRisk2025.ts'
import { HIGH_B2M, ISS_ALBUMIN, issStage, LOW_B2M } from './iss.ts'
import { R_ISS_GENETICS } from './rIss.ts'
import { geneticsWords, type RiskPart, sampleWords } from './riskPart.ts'
import { type StagingInputs, stagingInputs } from './stagingInputs.ts'

const asked = (value: Interval | null | undefined, holds: (value: Interval) => Holds): Holds | null =>
  value === null || value === undefined ? null : holds(value)

function issParts({ b2m, albumin }: StagingInputs): readonly RiskPart[] {
  const b2mWords = sampleWords(b2m, 'mg/L')
  return [
    {
      input: 'beta-2 microglobulin',
      ...b2mWords,
      threshold: `I below ${decimalText(LOW_B2M)} mg/L`,
      met: asked(b2m?.value, (of) => below(of, LOW_B2M)),
      points: null,
    },
    {
      input: 'beta-2 microglobulin',
      ...b2mWords,
      threshold: `III at or above ${decimalText(HIGH_B2M)} mg/L`,
      met: asked(b2m?.value, (of) => atLeast(of, HIGH_B2M)),
      points: null,
    },
    {
      input: 'albumin',
      ...sampleWords(albumin, 'g/L'),
      threshold: `I at or above ${decimalText(ISS_ALBUMIN)} g/L`,
      met: asked(albumin?.value, (of) => atLeast(of, ISS_ALBUMIN)),
      points: null,
    },
  ]
}

function rIssParts(course: Course, inputs: StagingInputs): readonly RiskPart[] {
  const { stage } = issStage(inputs)
  const genetics = cytogeneticsOf(course)
  const upper = inputs.ldh?.results[0]?.referenceHigh ?? null
  return [
    {
      input: 'ISS',
      value: stage,
      on: stage === null ? null : (inputs.b2m?.on ?? null),
      threshold: 'I or III',
      met: stage === null ? null : sure(stage !== 'II'),
      points: null,
    },
    {
      input: 'genetics',
      ...geneticsWords(course),
      threshold: `any of ${R_ISS_GENETICS.join(', ')}`,
      met: genetics === null ? null : sure(R_ISS_GENETICS.some((name) => genetics.has(name))),
      points: null,
    },
    {
      input: 'LDH',
      ...sampleWords(inputs.ldh, 'U/L'),
      threshold:
        upper === null
          ? 'above the laboratory’s upper limit, which is not known'
          : `above the laboratory’s upper limit, ${decimalText(upper.kept)} U/L`,
      met: upper === null ? null : asked(inputs.ldh?.value, (of) => above(of, upper.kept)),
      points: null,
    },
  ]
}

const GENETIC_THRESHOLDS = [
  `del(17p) in more than ${decimalText(DEL17P_SHARE)} % of cells, or a TP53 mutation`,
  `any of ${TRANSLOCATIONS.join(', ')} with 1q gain or del(1p32)`,
  'del(1p32) in both copies, or in one with 1q gain',
] as const

function highRiskParts(course: Course, { b2m, creatinine }: StagingInputs): readonly RiskPart[] {
  const genetics = cytogeneticsOf(course)
  const factors = geneticFactors(genetics)
  return [
    ...GENETIC_THRESHOLDS.map((threshold, at) => ({
      input: 'genetics',
      ...geneticsWords(course),
      threshold,
      met: genetics === null ? null : (factors[at]?.holds ?? null),
      points: null,
    })),
    {
      input: 'beta-2 microglobulin',
      ...sampleWords(b2m, 'mg/L'),
      threshold: `at or above ${decimalText(HIGH_RISK_B2M)} mg/L, with the next`,
      met: asked(b2m?.value, (of) => atLeast(of, HIGH_RISK_B2M)),
      points: null,
    },
    {
      input: 'creatinine',
      ...sampleWords(creatinine, 'umol/L'),
      threshold: `below ${decimalText(CREATININE_MG_DL)} mg/dL`,
      met: lowCreatinine(creatinine),
      points: null,
    },
  ]
}

/** The parts of a stage, from the values of the start of the line or of the diagnosis. */
export function stagingParts(course: Course, model: 'iss' | 'r-iss' | 'high-risk-2025'): readonly RiskPart[] {
  const inputs = stagingInputs(course)
  if (model === 'iss') return issParts(inputs)
  return model === 'r-iss' ? rIssParts(course, inputs) : highRiskParts(course, inputs)
}
