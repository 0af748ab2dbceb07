import type { Chance } from '../chance.ts'

// Published regimens, international non-proprietary names joined as the course file wants them.
const FIXED = ['bortezomib+lenalidomide+dexamethasone', 'bortezomib+cyclophosphamide+dexamethasone', 'bortezomib+thalidomide+dexamethasone'] as const
const FIXED_AT_RELAPSE = ['carfilzomib+dexamethasone', 'pomalidomide+bortezomib+dexamethasone', 'carfilzomib+cyclophosphamide+dexamethasone'] as const
const CONTINUOUS = ['daratumumab+lenalidomide+dexamethasone', 'lenalidomide+dexamethasone', 'bortezomib+melphalan+prednisone'] as const
const CONTINUOUS_AT_RELAPSE = [
  'daratumumab+carfilzomib+dexamethasone',
  'isatuximab+carfilzomib+dexamethasone',
  'isatuximab+pomalidomide+dexamethasone',
  'elotuzumab+pomalidomide+dexamethasone',
  'carfilzomib+lenalidomide+dexamethasone',
  'ixazomib+lenalidomide+dexamethasone',
] as const

export function fixedRegimen(isFirst: boolean, chance: Chance): string {
  return chance.oneOf<string>(isFirst ? FIXED : FIXED_AT_RELAPSE)
}

export function continuousRegimen(isFirst: boolean, chance: Chance): string {
  return chance.oneOf<string>(isFirst ? CONTINUOUS : CONTINUOUS_AT_RELAPSE)
}

export function maintenanceRegimen(chance: Chance): string {
  return chance.weighted([
    [85, 'lenalidomide'],
    [15, 'bortezomib'],
  ])
}
