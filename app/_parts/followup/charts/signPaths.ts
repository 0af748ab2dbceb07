/** A point as a stroke without length: round whatever the picture is stretched to. */
export const dot = (x: number, y: number): string => `M${x} ${y}h0.01`

/** A diamond about its own place. */
export const DIAMOND = 'M0 -6.5L6.5 0L0 6.5L-6.5 0z'

/** A curve through level stretches, straight down or up from one to the next. */
export function stairs(levels: readonly { readonly from: number; readonly to: number; readonly y: number }[]): string {
  return levels
    .map(({ from, to, y }, at) => {
      const before = levels[at - 1]
      return before !== undefined && before.to === from ? `V${y}H${to}` : `M${from} ${y}H${to}`
    })
    .join('')
}

/** Areas between two heights, side by side. */
export function areas(parts: readonly { readonly from: number; readonly to: number; readonly top: number; readonly foot: number }[]): string {
  return parts.map(({ from, to, top, foot }) => `M${from} ${top}H${to}V${foot}H${from}z`).join('')
}

/** Lines from each place to the next. */
export function through(places: readonly (readonly [x: number, y: number])[]): string {
  return places.map(([x, y], at) => `${at === 0 ? 'M' : 'L'}${x} ${y}`).join('')
}
