import { scaleLinear, scaleLog } from '@visx/scale'
import type { ChartPlan } from './chart.ts'

/** A value axis: its ends and its ticks. */
export type Axis = Pick<ChartPlan, 'scale' | 'yDomain' | 'yTicks'>

const TICKS = 4
/** Decades up to which a log axis also names 2 and 5. */
const FEW_DECADES = 2

function tick(at: number): ChartPlan['yTicks'][number] {
  return { at, label: String(Number(at.toPrecision(12))) }
}

/** A linear axis over the numbers drawn, its ends on round numbers. `fromZero` for what counts from nothing, such as an M-protein. */
export function linearAxis(drawn: readonly number[], fromZero: boolean): Axis {
  if (drawn.length === 0) return { scale: 'linear', yDomain: [0, 1], yTicks: [] }
  const top = Math.max(...drawn)
  const bottom = fromZero ? 0 : Math.min(...drawn)
  // One lonely number gets room on both sides.
  const room = top === bottom ? Math.abs(top) * 0.1 || 1 : (top - bottom) * 0.06
  const axis = scaleLinear<number>({ domain: [fromZero ? 0 : Math.max(0, bottom - room), top + room] }).nice(TICKS)
  const [low = 0, high = 1] = axis.domain()
  return { scale: 'linear', yDomain: [low, high], yTicks: axis.ticks(TICKS).map(tick) }
}

/** A linear axis of differences, or of values that may lie below 0: 0 is on it. `withSign` writes +5. */
export function signedAxis(drawn: readonly number[], withSign: boolean): Axis {
  const [top, bottom] = [Math.max(0, ...drawn), Math.min(0, ...drawn)]
  const room = (top - bottom) * 0.06 || 1
  const axis = scaleLinear<number>({ domain: [bottom === 0 ? -room : bottom - room, top + room] })
  const [low = 0, high = 1] = axis.domain()
  const signed = ({ at, label }: ReturnType<typeof tick>) => ({ at, label: withSign && at > 0 ? `+${label}` : label })
  return { scale: 'linear', yDomain: [low, high], yTicks: axis.ticks(TICKS).map(tick).map(signed) }
}

/** A logarithmic axis; numbers of 0 or below have no place on it and stand at its foot. */
export function logAxis(drawn: readonly number[]): Axis {
  const positive = drawn.filter((at) => at > 0)
  if (positive.length === 0) return { scale: 'log', yDomain: [1, 10], yTicks: [] }
  const domain: [number, number] = [Math.min(...positive) * 0.85, Math.max(...positive) * 1.15]
  const decades = Math.log10(domain[1] / domain[0])
  const named = decades > FEW_DECADES ? [1] : [1, 2, 5]
  const ticks = scaleLog<number>({ domain })
    .ticks()
    .filter((at) => named.includes(Number((at / 10 ** Math.floor(Math.log10(at) + 1e-9)).toFixed(6))))
  return { scale: 'log', yDomain: domain, yTicks: ticks.map(tick) }
}
