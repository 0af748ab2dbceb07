import { aimsOf } from './aims.ts'
import { intervalTable, levelTable, otherTable, yearTable } from './falseTables.ts'
import type { Figures } from './figures.ts'
import { delayTable, largeTable, leadTable, nthTable, readingTable, settingTable } from './relapseTables.ts'

export const BEGIN = '<!-- figures: written by npm run study -->'
export const END = '<!-- end of figures -->'

/** The figures of a run as they stand in the page, between its two marks. `on` is the ISO day of the run. */
export function figuresText(figures: Figures, on: string): string {
  const aims = aimsOf(figures).map(({ aim, found, met }) => `- ${aim}: **${met ? 'met' : 'not met'}**. ${found}`)
  return [
    BEGIN,
    '',
    `## Figures of ${on}`,
    '',
    `${figures.courses.toLocaleString('en')} courses, seed ${figures.seed}. Rates per 100 patient-years with exact Poisson 95 % intervals; shares with Wilson 95 %`,
    'intervals; medians with the distribution-free 95 % interval of order statistics, then the quartiles; "later": not within eight samples.',
    '',
    '![False confirmed progression by true level, true crossings flagged by the n-th sample, false flags by year, delay to confirmed, settings of the projection, and how far ahead early rules are](study.svg)',
    '',
    '### The aims',
    '',
    ...aims,
    '',
    '### False flags in stable patients, by true level',
    '',
    levelTable(figures),
    '',
    '### False flags, by how often samples are taken',
    '',
    intervalTable(figures),
    '',
    '### False flags that begin in each year of follow-up',
    '',
    yearTable(figures),
    '',
    '### False flags of the other rules',
    '',
    otherTable(figures),
    '',
    '### From the true crossing to the flag',
    '',
    `Of ${figures.drawn.toLocaleString('en')} relapses and escapes ${figures.crossed.toLocaleString('en')} crossed truly, stayed above, and had two samples after it.`,
    '',
    delayTable(figures),
    '',
    '### True crossings flagged by the n-th sample after them',
    '',
    nthTable(figures),
    '',
    '### How far ahead',
    '',
    leadTable(figures),
    '',
    '### Settings of `projected-crossing`',
    '',
    settingTable(figures),
    '',
    '### Other readings of `confirmed`',
    '',
    readingTable(figures),
    '',
    '### When a large unconfirmed rise is hastened',
    '',
    largeTable(figures),
    '',
    END,
  ].join('\n')
}

/** The page with the figures between its marks replaced. Throws Error where a mark is missing or stands twice: nothing else may be lost. */
export function withFigures(page: string, text: string): string {
  const [before, rest, ...more] = page.split(BEGIN)
  const [, after, ...extra] = (rest ?? '').split(END)
  if (before === undefined || after === undefined || more.length > 0 || extra.length > 0)
    throw new Error(`The page needs "${BEGIN}" and "${END}", once each.`)
  return `${before}${text}${after}`
}
