import type { RiskAssessment } from './model.ts'

type Place = 'lowest' | 'between' | 'highest'

const HIGHEST: readonly string[] = ['high', 'III', 'high risk']
const LOWEST: readonly string[] = ['low', 'I', 'not high risk']

function placeOf({ group }: RiskAssessment): Place | null {
  if (group === null) return null
  return HIGHEST.includes(group) ? 'highest' : LOWEST.includes(group) ? 'lowest' : 'between'
}

/**
 * The models that put one patient into different places: the lowest group of one, the highest of another, or between (ours). "Not high risk" only says what a
 * patient is not, so it disagrees with the highest group alone. Empty where they agree, or fewer than two can tell.
 */
export function disagreement(risk: readonly RiskAssessment[]): readonly RiskAssessment[] {
  const placed = risk.filter((one) => placeOf(one) !== null)
  const plain = placed.filter(({ group }) => group !== 'not high risk')
  const places = new Set(plain.map(placeOf))
  if (placed.length > plain.length && places.has('highest')) return placed
  return places.size > 1 ? plain : []
}
