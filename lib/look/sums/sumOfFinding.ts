import type { Finding } from '../../rules/index.ts'
import { decimal, roundedText } from '../../units/index.ts'
import type { Arithmetic } from './arithmetic.ts'

type Facts = Finding['facts']

/** A sum that may be the one, and what it has to say to be it. */
type Candidate = readonly [id: string, says: (sum: Arithmetic, facts: Facts) => boolean]

const begins = (number: string | undefined) => (sum: Arithmetic) => number !== undefined && sum.result.split(' ')[0] === number
const reaches = (number: string | undefined) => (sum: Arithmetic) => number !== undefined && sum.steps.some(({ result }) => result === number)

/** The same number to the decimals the sentence has. */
const roundsTo = (number: string | undefined) => (sum: Arithmetic) => {
  const [told = ''] = number?.split(' ') ?? []
  const [result = ''] = sum.result.split(' ')
  return told !== '' && roundedText(decimal(result), told.split('.')[1]?.length ?? 0) === told
}

/** The same rise from the same day: a change from another value is another sum. */
const rises = (sum: Arithmetic, { rise, referenceOn = '-' }: Facts) => reaches(rise)(sum) && sum.from.some((text) => text.includes(referenceOn))

function candidates({ rule, evidence, facts }: Finding): readonly Candidate[] {
  const marker = evidence.find(({ role }) => role === 'current')?.analyte ?? ''
  switch (rule) {
    case 'overdue':
    case 'due-in-grace':
      return [[`late-${facts.group}`, () => true]]
    case 'projected-crossing':
      return [[`crossing-${facts.marker}`, begins(facts.crossesOn)]]
    case 'risk-step':
      return [[`risk-${facts.model}`, begins(facts.count)]]
    case 'mde-renal':
      return [
        ['egfr', begins(facts.filtration)],
        ['clearance', begins(facts.filtration)],
      ]
    case 'mde-calcium':
    case 'relapse-calcium':
    case 'danger-calcium':
      return [['adjusted-calcium', roundsTo(facts.adjusted)]]
    case 'mde-light-chain':
      return [['involved-ratio', begins(facts.ratio)]]
    default:
      return [
        [`lowest-confirmed-${marker}`, rises],
        [`lowest-${marker}`, rises],
      ]
  }
}

/** The sum that shows how the number a finding tells was computed; null where it tells none, or where no sum comes to the same number. */
export function sumOfFinding(finding: Finding, sums: readonly Arithmetic[]): string | null {
  if (finding.endedOn !== null) return null
  for (const [id, says] of candidates(finding)) {
    const sum = sums.find((one) => one.id === id)
    if (sum !== undefined && says(sum, finding.facts)) return id
  }
  return null
}
