import { type Frame, LOOKS, type Look, line, mark, path } from './svg.ts'

/** A value with its interval, in pixels. */
export interface Point {
  readonly x: number
  readonly y: number
  readonly low: number
  readonly high: number
}

/** Points joined in their order, each with its interval. */
export function series(points: readonly Point[], look: Look): string {
  const whiskers = points.map(({ x, low, high }) => line(x, low, x, high, look.colour, 1.4))
  return `${path(
    points.map(({ x, y }) => [x, y] as const),
    look,
  )}${whiskers.join('')}${points.map(({ x, y }) => mark(x, y, look)).join('')}`
}

/** A little to the side, so that intervals at one place do not hide each other. */
export function aside(nth: number, of: number): number {
  return (nth - (of - 1) / 2) * 7
}

export function lookOf(nth: number): Look {
  return LOOKS[nth % LOOKS.length] ?? LOOKS[0]
}

/** Values as places: what lies beyond the frame is drawn at its edge. */
export function within({ top, bottom }: Frame, y: number): number {
  return Math.min(bottom, Math.max(top, y))
}
