/** Where a panel draws: the plot area inside its axes, in pixels of the whole picture. */
export interface Frame {
  readonly left: number
  readonly top: number
  readonly right: number
  readonly bottom: number
}

/** One series looks the same everywhere: its colour, its mark, and its dash all differ, so that none is needed to tell it. */
export interface Look {
  readonly colour: string
  readonly mark: 'disc' | 'square' | 'triangle' | 'diamond'
  readonly dash: string
}

export const LOOKS: readonly [Look, Look, Look, Look] = [
  { colour: '#1f4e8c', mark: 'disc', dash: '' },
  { colour: '#b3470f', mark: 'square', dash: '7 4' },
  { colour: '#1b7a4b', mark: 'triangle', dash: '2 3' },
  { colour: '#6b3d8f', mark: 'diamond', dash: '9 3 2 3' },
]

export const INK = '#1a1a1a'
const FAINT = '#d9d9d9'

const digits = (value: number): string => String(Math.round(value * 10) / 10)

export function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;')
}

export interface TextLook {
  readonly size?: number
  readonly anchor?: 'start' | 'middle' | 'end'
  readonly weight?: 'normal' | 'bold'
  readonly colour?: string
  readonly turned?: boolean
}

export function words(x: number, y: number, text: string, look: TextLook = {}): string {
  const { size = 13, anchor = 'start', weight = 'normal', colour = INK, turned = false } = look
  const turn = turned ? ` transform="rotate(-90 ${digits(x)} ${digits(y)})"` : ''
  return `<text x="${digits(x)}" y="${digits(y)}" font-size="${size}" text-anchor="${anchor}" font-weight="${weight}" fill="${colour}"${turn}>${escaped(text)}</text>`
}

export function line(x1: number, y1: number, x2: number, y2: number, colour: string = FAINT, width = 1, dash = ''): string {
  const dashed = dash === '' ? '' : ` stroke-dasharray="${dash}"`
  return `<line x1="${digits(x1)}" y1="${digits(y1)}" x2="${digits(x2)}" y2="${digits(y2)}" stroke="${colour}" stroke-width="${width}"${dashed}/>`
}

export function path(points: readonly (readonly [number, number])[], { colour, dash }: Look): string {
  const dashed = dash === '' ? '' : ` stroke-dasharray="${dash}"`
  const d = points.map(([x, y], at) => `${at === 0 ? 'M' : 'L'}${digits(x)} ${digits(y)}`).join('')
  return `<path d="${d}" fill="none" stroke="${colour}" stroke-width="1.8"${dashed}/>`
}

const CORNERS: Readonly<Record<Exclude<Look['mark'], 'disc'>, readonly (readonly [number, number])[]>> = {
  square: [
    [-4.5, -4.5],
    [4.5, -4.5],
    [4.5, 4.5],
    [-4.5, 4.5],
  ],
  triangle: [
    [0, -6],
    [5.5, 4.5],
    [-5.5, 4.5],
  ],
  diamond: [
    [0, -6.5],
    [6, 0],
    [0, 6.5],
    [-6, 0],
  ],
}

export function mark(x: number, y: number, { colour, mark: shape }: Look): string {
  if (shape === 'disc') return `<circle cx="${digits(x)}" cy="${digits(y)}" r="5" fill="${colour}"/>`
  const points = CORNERS[shape].map(([dx, dy]) => `${digits(x + dx)},${digits(y + dy)}`).join(' ')
  return `<polygon points="${points}" fill="#ffffff" stroke="${colour}" stroke-width="2"/>`
}

/** Names of the series, each with its line and mark, below one another. */
export function legend(x: number, y: number, names: readonly string[], looks: readonly Look[] = LOOKS): string {
  return names
    .map((name, at) => {
      const look = looks[at] ?? LOOKS[0]
      const to = y + at * 18
      return `${path(
        [
          [x, to],
          [x + 30, to],
        ],
        look,
      )}${mark(x + 15, to, look)}${words(x + 38, to + 4.5, name)}`
    })
    .join('')
}
