import type { Figures } from './figures.ts'
import { SETTINGS, USUAL_SETTING } from './settings.ts'
import { intervalText, rateText, shareText } from './words.ts'

/** What the study was to show, what it showed, and whether that is enough. */
export interface Aim {
  readonly aim: string
  readonly found: string
  readonly met: boolean
}

export const MOST_FALSE_CONFIRMED = 0.5
export const MOST_FALSE_PROJECTIONS = 5
export const LEAST_LEAD_INTERVALS = 1

function falseConfirmed({ groups, levels }: Figures): Aim {
  const all = groups.find(({ group, every }) => group === 'serum' && every === null)
  const within = levels.filter(({ kind }) => kind.group === 'serum' && kind.level > 0)
  const above = within.filter(({ usual }) => usual.confirmed.per100 > MOST_FALSE_CONFIRMED).map(({ kind }) => kind.level)
  const where = above.length === 0 ? 'at every level' : `exceeded at a true value of ${above.join(', ')} g/L`
  return {
    aim: `false confirmed \`pd-serum\` at most ${MOST_FALSE_CONFIRMED} per 100 patient-years`,
    found: all === undefined ? 'not measured' : `${rateText(all.usual.confirmed)}, all levels alike; ${where}`,
    met: all !== undefined && all.usual.confirmed.per100 <= MOST_FALSE_CONFIRMED && above.length === 0,
  }
}

function flaggedBySecond({ relapses }: Figures): Aim {
  const shares = relapses.map(({ rule, usual }) => ({ rule, share: usual.byNth[1] }))
  return {
    aim: 'every true, sustained crossing flagged by the second sample after it',
    found: shares.map(({ rule, share }) => `\`${rule}\` ${share === undefined ? '' : shareText(share)}`).join('; '),
    met: shares.every(({ share }) => share !== undefined && share.of === share.total),
  }
}

function projectionAhead({ settings }: Figures): Aim {
  const usual = SETTINGS[USUAL_SETTING]
  const found = settings.filter(({ setting }) => setting === usual)
  return {
    aim: `median lead of \`projected-crossing\` at least ${LEAST_LEAD_INTERVALS} sampling interval, at most ${MOST_FALSE_PROJECTIONS} false flags per 100 patient-years`,
    found: found
      .map(
        ({ rule, leads, falsely }) =>
          `\`${rule}\`: first in ${shareText(leads.first)} of relapses, where it is ${intervalText(leads.whereFirst, 1)} intervals ahead, over all ${leads.intervals.median.toFixed(1)}; ${rateText(falsely)} false flags`,
      )
      .join('; '),
    met: found.every(({ leads, falsely }) => leads.intervals.median >= LEAST_LEAD_INTERVALS && falsely.per100 <= MOST_FALSE_PROJECTIONS),
  }
}

export function aimsOf(figures: Figures): Aim[] {
  return [falseConfirmed(figures), flaggedBySecond(figures), projectionAhead(figures)]
}
