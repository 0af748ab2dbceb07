import { confirmMerge, declineMerge, endMerge, type MergeView, type Outcome, proposeMerge, readMerges } from '../../usecases/index.ts'
import { type Command, type ExitStatus, printJson, type Session } from '../command.ts'
import { textTable } from '../table.ts'
import { readWords, reasonOf, textOf, type Values, WrongWords } from '../words.ts'

const REASONED = { reason: { type: 'string' }, json: { type: 'boolean' } } as const

function numberOf(word: string | undefined): number {
  if (!/^[1-9]\d{0,14}$/.test(word ?? '')) throw new WrongWords(`ID is the number merge list shows, not "${word}".`)
  return Number(word)
}

function answered({ terminal }: Session, values: Values, mergeId: number, outcome: Outcome<{ readonly sentence: string }>): ExitStatus {
  if (!outcome.ok) throw new Error(outcome.reason)
  if (values.json === true) printJson(terminal, { mergeId, ...outcome.value })
  else terminal.out(`${outcome.value.sentence}\n`)
  return 0
}

export const mergePropose: Command = {
  words: ['merge', 'propose'],
  usage: 'FROM INTO --reason TEXT [--json]',
  does: 'proposes to read two records as one patient, INTO; somebody else has to confirm it',
  async run(args, session) {
    const { values, words } = readWords(args, REASONED, { min: 2, max: 2, called: 'FROM INTO' })
    const [fromId = '', intoId = ''] = words
    const outcome = await proposeMerge(await session.call(), { fromId, intoId, reason: reasonOf(values) })
    if (!outcome.ok) throw new Error(outcome.reason)
    const { mergeId } = outcome.value
    const sentence = `Merge ${mergeId} of record ${fromId} into patient ${intoId} is proposed; somebody else has to confirm it.`
    return answered(session, values, mergeId, { ok: true, value: { sentence } })
  },
}

export const mergeConfirm: Command = {
  words: ['merge', 'confirm'],
  usage: 'ID [--json]',
  does: 'confirms a merge somebody else proposed; both records are then read as one patient',
  async run(args, session) {
    const { values, words } = readWords(args, { json: { type: 'boolean' } }, { min: 1, max: 1, called: 'ID' })
    const mergeId = numberOf(words[0])
    return answered(session, values, mergeId, await confirmMerge(await session.call(), { mergeId }))
  },
}

export const mergeDecline: Command = {
  words: ['merge', 'decline'],
  usage: 'ID [--reason TEXT] [--json]',
  does: 'declines a merge that waits, or takes a proposal back',
  async run(args, session) {
    const { values, words } = readWords(args, REASONED, { min: 1, max: 1, called: 'ID' })
    const mergeId = numberOf(words[0])
    return answered(session, values, mergeId, await declineMerge(await session.call(), { mergeId, reason: textOf(values, 'reason') ?? '' }))
  },
}

export const mergeEnd: Command = {
  words: ['merge', 'end'],
  usage: 'ID --reason TEXT [--json]',
  does: 'ends a merge: each record is read alone again, exactly as if they had never been joined',
  async run(args, session) {
    const { values, words } = readWords(args, REASONED, { min: 1, max: 1, called: 'ID' })
    const mergeId = numberOf(words[0])
    return answered(session, values, mergeId, await endMerge(await session.call(), { mergeId, reason: reasonOf(values) }))
  },
}

function cells({ mergeId, fromId, intoId, state, proposedBy, decidedBy, reason }: MergeView): string[] {
  return [String(mergeId), fromId, intoId, state, proposedBy, decidedBy ?? '-', reason]
}

export const mergeList: Command = {
  words: ['merge', 'list'],
  usage: '[--json]',
  does: 'merges that wait for a second person, those in force, and those that are past',
  async run(args, { terminal, call }) {
    const { values } = readWords(args, { json: { type: 'boolean' } }, { min: 0, max: 0, called: '' })
    const outcome = await readMerges(await call())
    if (!outcome.ok) throw new Error(outcome.reason)
    const { waiting, inForce, past } = outcome.value
    if (values.json === true) printJson(terminal, { waiting, inForce, past })
    else terminal.out(textTable(['id', 'from', 'into', 'state', 'proposed by', 'decided by', 'reason'], [...waiting, ...inForce, ...past].map(cells)))
    return 0
  },
}
