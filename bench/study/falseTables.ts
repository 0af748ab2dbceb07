import { RULE_OF_GROUP } from './falseFlags.ts'
import type { Figures } from './figures.ts'
import { everyText, rateText, shareText, table } from './words.ts'

/** False flags by true level. */
export function levelTable({ levels }: Figures): string {
  return table(
    ['true level', 'rule', 'confirmed', 'by the plain lowest', 'by three samples', 'unconfirmed', 'flagged in 2 years', 'confirmed in 2 years'],
    levels.map(({ kind, usual, plain, three }) => [
      kind.name,
      `\`${RULE_OF_GROUP[kind.group]}\``,
      rateText(usual.confirmed),
      rateText(plain.confirmed),
      rateText(three.confirmed),
      rateText(usual.unconfirmed),
      shareText(usual.everIn2),
      shareText(usual.confirmedIn2),
    ]),
  )
}

/** False flags by how often samples are taken. */
export function intervalTable({ groups }: Figures): string {
  return table(
    ['group', 'a sample every', 'patient-years', 'confirmed', 'confirmed by the plain lowest', 'unconfirmed'],
    groups.map(({ group, every, usual, plain }) => [
      group,
      everyText(every),
      usual.any.years.toFixed(0),
      rateText(usual.confirmed),
      rateText(plain.confirmed),
      rateText(usual.unconfirmed),
    ]),
  )
}

/** False flags by year of follow-up. */
export function yearTable({ years }: Figures): string {
  const most = Math.max(...years.map(({ rates }) => rates.length))
  return table(
    ['group', ...Array.from({ length: most }, (_, year) => `year ${year + 1}`)],
    years.map(({ group, rates }) => [group, ...rates.map(rateText)]),
  )
}

/** False flags of rules that look at every marker. */
export function otherTable({ others }: Figures): string {
  return table(
    ['rule', 'group', 'false flags', 'flagged in 2 years'],
    others
      .toSorted((a, b) => (a.rule === b.rule ? 0 : a.rule < b.rule ? -1 : 1))
      .map(({ group, rule, flags }) => [`\`${rule}\``, group, rateText(flags.any), shareText(flags.everIn2)]),
  )
}
