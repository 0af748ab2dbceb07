import type { Figures } from '../figures.ts'
import { byLevel } from './byLevel.ts'
import { byNth } from './byNth.ts'
import { overYears } from './overYears.ts'
import { settingsPanel } from './settings.ts'
import { ahead, toConfirmed } from './spreads.ts'
import { escaped, type Frame } from './svg.ts'

const [WIDTH, HEIGHT] = [1240, 1320]

/** Room for the names of rows. */
const [READINGS, RULES] = [180, 290]

/** Plot area of a panel, by column and row; `wider` leaves room for the names of rows. */
function frame(column: 0 | 1, row: 0 | 1 | 2, wider = 0): Frame {
  const [left, top] = [column * 620 + 78 + wider, 50 + row * 440]
  return { left, top, right: column * 620 + 596, bottom: top + 320 }
}

/** The picture of a study as one SVG document: six panels, text in a system font, nothing told by colour alone. */
export function pictureOf(figures: Figures): string {
  const title = `What the rules say of ${figures.courses.toLocaleString('en')} simulated courses`
  const panels = [
    byLevel(figures, frame(0, 0)),
    byNth(figures, frame(1, 0)),
    overYears(figures, frame(0, 1)),
    toConfirmed(figures, frame(1, 1, READINGS), READINGS),
    settingsPanel(figures, frame(0, 2)),
    ahead(figures, frame(1, 2, RULES), RULES),
  ]
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" width="${WIDTH}" height="${HEIGHT}" role="img" font-family="system-ui, sans-serif">`,
    `<title>${escaped(title)}</title>`,
    `<rect width="${WIDTH}" height="${HEIGHT}" fill="#ffffff"/>`,
    ...panels,
    '</svg>',
    '',
  ].join('\n')
}
