import type { Figures } from './figures.ts'
import { everyText, intervalText, rateText, shareText, spreadText, table } from './words.ts'

/** Delay from the true crossing. */
export function delayTable({ relapses }: Figures): string {
  return table(
    ['rule', 'crossings', 'flagged before', 'days to a flag', 'days to `confirmed`', 'days to `confirmed` by the plain lowest'],
    relapses.map(({ rule, usual, plain }) => [
      `\`${rule}\``,
      String(usual.crossings),
      shareText(usual.before),
      spreadText(usual.toFlag),
      spreadText(usual.toConfirmed),
      spreadText(plain.toConfirmed),
    ]),
  )
}

/** Share of true crossings flagged by the first, second, ... sample after them. */
export function nthTable({ relapses }: Figures): string {
  return table(
    ['rule', 'first sample', 'second', 'third', 'fourth', 'second, whatever rule says it'],
    relapses.map(({ rule, usual, any }) => [
      `\`${rule}\``,
      ...usual.byNth.slice(0, 4).map(shareText),
      any.byNth[1] === undefined ? '' : shareText(any.byNth[1]),
    ]),
  )
}

/** How far ahead the early rules are. */
export function leadTable({ leads }: Figures): string {
  return table(
    [
      'rule',
      'before the confirmed',
      'a sample every',
      'comes first in',
      'days ahead where it does',
      'intervals ahead',
      'before the true crossing in',
      'days before it',
    ],
    leads.map(({ early, late, every, leads: found }) => [
      `\`${early}\``,
      `\`${late}\``,
      everyText(every),
      shareText(found.first),
      intervalText(found.daysWhereFirst),
      intervalText(found.whereFirst, 1),
      shareText(found.beforeCrossing),
      intervalText(found.daysBeforeCrossing),
    ]),
  )
}

/** A page of rows for each rule would hide what they say: the confidence in three steps, and six samples over serum alone. */
const isTold = ({ rule, setting }: Figures['settings'][number]): boolean =>
  setting.percent >= 90 && (setting.samples === 3 || (setting.samples === 6 && rule === 'pd-serum'))

/** What settings of the projection cost and give. */
export function settingTable({ settings }: Figures): string {
  return table(
    [
      'over',
      'line from',
      'months',
      'samples at least',
      'confidence',
      'false flags',
      'comes first in',
      'intervals ahead where it does',
      'before the true crossing in',
    ],
    settings
      .filter(isTold)
      .map(({ rule, setting, falsely, leads }) => [
        `\`${rule}\``,
        `the ${setting.from}`,
        String(setting.months),
        String(setting.samples),
        `${setting.percent} %`,
        rateText(falsely),
        shareText(leads.first),
        intervalText(leads.whereFirst, 1),
        shareText(leads.beforeCrossing),
      ]),
  )
}

/** What each reading of `confirmed` costs and gives. */
export function readingTable({ readings }: Figures): string {
  return table(
    ['rule', '`confirmed` asks for', 'false `confirmed`', 'days to `confirmed`', 'confirmed within eight samples'],
    readings.map(({ rule, name, falsely, delays }) => [
      `\`${rule}\``,
      name,
      rateText(falsely),
      spreadText(delays.toConfirmed),
      shareText(delays.confirmedAtAll),
    ]),
  )
}

/** What each choice of `largeRiseTimes` costs and gives. */
export function largeTable({ large }: Figures): string {
  return table(
    ['rule', 'times', 'hastened falsely', 'true crossings whose first flag is hastened or confirmed'],
    large.flatMap(({ rule, curve }) =>
      curve.map(({ times, falsely, rightly }) => [`\`${rule}\``, String(times), rateText(falsely), shareText(rightly)]),
    ),
  )
}
