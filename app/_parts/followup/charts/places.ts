import { scaleLinear } from '@visx/scale'

/** Height of a picture in CSS pixels: only its width follows the window. */
export const HEIGHT = 220
export const FOOT = HEIGHT - 10
/** Room at the top, and for each row of labels there. */
const TOP = 12
const ROW = 15
/** Width of the picture's inner units; they are stretched to the window, while strokes and text are not. */
export const WIDTH = 1000

/** From so many months on their points are drawn smaller, so that they stay apart. */
const MANY = 48

/** The class of a picture of so many months. */
export function monthsClass(months: number): string {
  return months > MANY ? 'audit-picture audit-many' : 'audit-picture'
}

const tenth = (at: number): number => Math.round(at * 10) / 10

/** The highest place values reach, below so many rows of labels. */
export function topBelow(rows: number): number {
  return TOP + rows * ROW
}

/** Where the text of a row of labels at the top stands; row 0 is the lowest. */
export function rowAt(row: number, rows: number): number {
  return TOP + (rows - row) * ROW - 5
}

/** How high a value lies, in CSS pixels from the top. */
export function heightsOf(low: number, high: number, top: number): (value: number) => number {
  const place = scaleLinear<number>({ domain: [low, high], range: [FOOT, top], clamp: true })
  return (value) => tenth(place(value))
}

/** A place from 0 to 100 in the inner units. */
export function along(at: number): number {
  return tenth((at * WIDTH) / 100)
}

/** On which side of its place a text stands, so that it stays in the picture. */
export function anchorAt(at: number, room = 12): 'start' | 'middle' | 'end' {
  return at < room ? 'start' : at > 100 - room ? 'end' : 'middle'
}
