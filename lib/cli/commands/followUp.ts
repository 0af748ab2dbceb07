import { parseDay } from '../../time/index.ts'
import {
  type DocumentBy,
  exportFollowUp,
  FOLLOW_UP_BY,
  type FollowUp,
  type FollowUpWish,
  followUpDocument,
  readFollowUp,
} from '../../usecases/index.ts'
import { type Command, printJson, type Terminal } from '../command.ts'
import { textTable } from '../table.ts'
import { readWords, textOf, type Values, WrongWords } from '../words.ts'

function dayOf(values: Values, name: string): string {
  const text = textOf(values, name)
  if (text === null) throw new WrongWords(`--${name} DAY is missing.`)
  if (parseDay(text) === null) throw new WrongWords(`--${name} takes a day written YYYY-MM-DD, not "${text}".`)
  return text
}

function byOf(values: Values): DocumentBy | null {
  const text = textOf(values, 'by')
  if (text === null) return null
  const by = FOLLOW_UP_BY.find((one) => one === text)
  if (by === undefined) throw new WrongWords(`--by takes ${FOLLOW_UP_BY.join(', ')}, not "${text}".`)
  return by
}

/** The wish of the words. Throws WrongWords where a day or a version is none. */
function wishOf(values: Values): FollowUpWish {
  const [from, to] = [dayOf(values, 'from'), dayOf(values, 'to')]
  if (to < from) throw new WrongWords(`--to ${to} is before --from ${from}.`)
  const whatIf = textOf(values, 'what-if')
  if (whatIf !== null && !/^[1-9]\d{0,8}$/.test(whatIf)) throw new WrongWords(`--what-if takes the number of a version of the plan, not "${whatIf}".`)
  const cutOff = textOf(values, 'as-of') === null ? null : dayOf(values, 'as-of')
  return { from, to, cutOff, whatIf: whatIf === null ? null : Number(whatIf) }
}

const percent = (share: number | null | undefined): string => (share === null || share === undefined ? '-' : `${(100 * share).toFixed(1)} %`)
const days = (count: number | null | undefined): string => (count === null || count === undefined ? 'not reached' : `${Math.round(count)} days`)

function tell({ figures, whatIf, revision, sha256 }: FollowUp, by: DocumentBy | null, { out, err }: Terminal): void {
  const rows = [{ key: 'all', ...figures.onTime }, ...(by === null ? [] : figures.by[by])]
  const cells = rows.map(({ key, due, onTime, late, missed, proportion, wilson95 }) => [
    key,
    ...[due, onTime, late, missed].map(String),
    percent(proportion),
    wilson95 === null ? '-' : `${percent(wilson95[0])} to ${percent(wilson95[1])}`,
  ])
  out(textTable([by ?? 'tests', 'due', 'on time', 'late', 'missed', 'share on time', '95 %'], cells))
  const { lateness, backlog, answered, daysToReview, daysToRepeat, coverage } = figures
  out(`late by: median ${days(lateness?.median)}, 90th percentile ${days(lateness?.p90)}\n`)
  out(`overdue on ${figures.to}: ${backlog.tests} tests of ${backlog.patients} patients, median ${days(backlog.ages?.median)} past due\n`)
  out(`flagged findings: ${answered.of}, answered ${answered.count}; median to review ${days(daysToReview.median)}, ${daysToReview.open} open\n`)
  out(`unconfirmed findings: median to the second sample ${days(daysToRepeat.median)}, ${daysToRepeat.open} open\n`)
  out(`time with every due test done: ${percent(coverage?.share)}\n`)
  if (whatIf !== null) {
    const { due, late, missed } = whatIf.onTime
    out(`under the other version of the plan: ${due} due (${due - figures.onTime.due} more), ${late} late, ${missed} missed\n`)
  }
  err(`Data up to ${figures.cutOff}, revision ${revision}, SHA-256 of the figures ${sha256}.\n`)
  err('Lowmark flags for review. It does not diagnose, attribute or treat; local protocol and the treating physician decide.\n')
}

export const followUp: Command = {
  words: ['follow-up'],
  usage: '--from DAY --to DAY [--by month|clinician|phase] [--as-of DAY] [--what-if VERSION] [--json|--csv]',
  does: 'the follow-up audit of a period: what was due, and whether it was done on time; groups of fewer than 5 stand together as "others"',
  async run(args, { terminal, call }) {
    const { values } = readWords(
      args,
      {
        from: { type: 'string' },
        to: { type: 'string' },
        by: { type: 'string' },
        'as-of': { type: 'string' },
        'what-if': { type: 'string' },
        json: { type: 'boolean' },
        csv: { type: 'boolean' },
      },
      { min: 0, max: 0, called: '' },
    )
    const [wish, by] = [wishOf(values), byOf(values)]
    if (values.json === true && values.csv === true) throw new WrongWords('Say either --json or --csv.')
    const onProgress = ({ step, done, of }: { step: string; done: number; of: number }): void => terminal.err(`${step}: ${done} of ${of}\n`)
    if (values.csv === true) {
      const file = await exportFollowUp(await call(), { ...wish, by }, onProgress)
      if (!file.ok) throw new Error(file.reason)
      terminal.out(file.value.text)
      return 0
    }
    const outcome = await readFollowUp(await call(), wish, { onProgress })
    if (!outcome.ok) throw new Error(outcome.reason)
    if (values.json === true) printJson(terminal, followUpDocument(outcome.value.figures, by))
    else tell(outcome.value, by, terminal)
    return 0
  },
}
