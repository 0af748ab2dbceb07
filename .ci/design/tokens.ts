/** What each colour of app/globals.css means, by which word or shape the same is told, and on what it stands. */

/** text: read as letters (4.5 : 1). mark: a line, a point, an edge, a boundary (3 : 1). ground: what others stand on. separator: decoration, and nothing is lost without it. */
export type Use = 'text' | 'mark' | 'ground' | 'separator'

export interface ColourToken {
  readonly name: string
  readonly use: Use
  readonly means: string
  /** The word or the shape that says the same. */
  readonly also: string
}

const GROUND = 'nothing is told by it alone: headings and borders say where something begins'

export const COLOURS: readonly ColourToken[] = [
  {
    name: '--ink',
    use: 'text',
    means: "what is read first; its weight at a row's edge: how soon to look",
    also: 'the window in words, and its place on the list',
  },
  { name: '--ink-soft', use: 'text', means: 'what is read second', also: 'its smaller size' },
  { name: '--line', use: 'separator', means: 'where one row ends', also: 'the space between rows' },
  { name: '--line-strong', use: 'mark', means: 'the boundary of a field, a quiet button, a tag', also: 'the label in or above it' },
  { name: '--paper', use: 'ground', means: 'the page', also: GROUND },
  { name: '--paper-raised', use: 'ground', means: 'what is worked with: tables, fields, notices; letters on a full button', also: GROUND },
  { name: '--band', use: 'ground', means: 'a group, a row under the pointer, a time on treatment', also: 'its heading, its underline, its label' },
  { name: '--link', use: 'text', means: 'can be followed; has the focus', also: 'underlined; outlined' },
  {
    name: '--mark-lowest',
    use: 'text',
    means: 'the lowest value; and of an answer: it was taken',
    also: 'a foot at the point and the word "lowest"; the sentence beside it',
  },
  { name: '--mark-criterion', use: 'text', means: 'the criterion', also: 'a full line across and the word of the criterion' },
  { name: '--alert', use: 'text', means: 'waits for a person', also: 'the sentence beside it, in bold where it stands in a table' },
  { name: '--series-1', use: 'text', means: 'the first series of a chart', also: 'round points and its name at the line' },
  { name: '--series-2', use: 'text', means: 'the second series of a chart', also: 'square points, a broken line and its name' },
  { name: '--code-paper', use: 'ground', means: 'under the square a camera reads', also: 'the same key in letters beside it' },
]

/** Ink and paper changed about: a full button, the heading of the first window. */
export const INVERSE = { name: '--paper-raised', on: '--ink' } as const

/** The grounds every text and every mark has to hold on. */
export const GROUNDS = ['--paper', '--paper-raised', '--band'] as const

/** WCAG 2.2, success criteria 1.4.3 and 1.4.11, level AA. */
export const LEAST: Readonly<Record<'text' | 'mark', number>> = { text: 4.5, mark: 3 }

export const THEMES = ['light', 'dark', 'print'] as const
export type Theme = (typeof THEMES)[number]

/** Sizes of letters, smallest first; rem at the browser's usual 16 pixels. */
export const SIZES = [
  { name: '--text-small', means: 'what is read second: labels, where a value comes from' },
  { name: '--text-base', means: 'everything that is read' },
  { name: '--text-lead', means: 'headings of a part; the sentence why' },
  { name: '--text-head', means: 'the heading of a page; a count' },
] as const
