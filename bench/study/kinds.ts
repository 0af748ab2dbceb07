/** What a simulated patient's disease shows itself by. */
export type ShownBy = 'serum' | 'urine' | 'light-chain'

/** A patient in whom nothing changes: every finding is false. Levels are true values in the unit kept. */
export interface StableKind {
  readonly family: 'stable'
  readonly name: string
  /** Which level is told in the tables. */
  readonly group: 'serum' | 'urine' | 'light chains only' | 'light chains beside serum'
  readonly level: number
  readonly serum: number
  readonly urine: number
  readonly kappa: number
}

/** A patient who responds and then relapses by one marker. */
export interface RelapseKind {
  readonly family: 'relapse'
  readonly name: string
  readonly by: ShownBy
}

/** A patient whose serum M-protein stays while the light chains rise. */
export interface EscapeKind {
  readonly family: 'escape'
  readonly name: string
}

export type Kind = StableKind | RelapseKind | EscapeKind

/** Background of a light chain nobody's clone makes, mg/L; the clone's own chain is kappa throughout. */
export const BACKGROUND = 12

const FREE_LIGHT_LEVELS = [50, 150, 300, 600]

export const STABLE_KINDS: readonly StableKind[] = [
  ...[0, 5, 10, 15, 25, 40, 55].map((level) => stable('serum', level, 'g/L', { serum: level, kappa: 15 })),
  ...FREE_LIGHT_LEVELS.map((level) => stable('light chains only', level, 'mg/L', { kappa: level })),
  ...FREE_LIGHT_LEVELS.map((level) => stable('light chains beside serum', level, 'mg/L', { kappa: level, serum: 25 })),
  ...[200, 500, 1000].map((level) => stable('urine', level, 'mg/24 h', { urine: level, kappa: 60 })),
]

function stable(group: StableKind['group'], level: number, unit: string, shows: { serum?: number; urine?: number; kappa: number }): StableKind {
  return { family: 'stable', name: `${group}, ${level} ${unit}`, group, level, serum: shows.serum ?? 0, urine: shows.urine ?? 0, kappa: shows.kappa }
}

/** Serum relapses are the most common, so they are half. */
const RELAPSES: readonly RelapseKind[] = (['serum', 'light-chain', 'serum', 'urine'] as const).map((by) => ({
  family: 'relapse',
  name: `relapse by ${by}`,
  by,
}))

const ESCAPE: EscapeKind = { family: 'escape', name: 'light-chain escape' }

/** Days between two samples: monthly, two-monthly, three-monthly. */
export const INTERVALS = [28, 56, 84] as const

/** Of ten courses six are stable, three relapse, one escapes; every kind meets every interval equally often. */
const TURN = ['stable', 'stable', 'relapse', 'stable', 'stable', 'relapse', 'stable', 'stable', 'relapse', 'escape'] as const

/** Kind and sampling interval of course `index` (0, 1, 2, ...), by turns, so that a study of any size has its share of each. */
export function kindOf(index: number): { readonly kind: Kind; readonly every: number } {
  const place = index % TURN.length
  const family = TURN[place] ?? 'stable'
  const perTurn = TURN.filter((other) => other === family).length
  const nth = Math.floor(index / TURN.length) * perTurn + TURN.slice(0, place).filter((other) => other === family).length
  const kinds: readonly Kind[] = family === 'stable' ? STABLE_KINDS : family === 'relapse' ? RELAPSES : [ESCAPE]
  const every = INTERVALS[Math.floor(nth / kinds.length) % INTERVALS.length]
  const kind = kinds[nth % kinds.length]
  if (kind === undefined || every === undefined) throw new RangeError(`${index} is no course`)
  return { kind, every }
}
