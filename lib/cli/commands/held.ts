import { decideHeld, type HeldAct, heldRows, proposePatient } from '../../usecases/index.ts'
import { type Command, printJson } from '../command.ts'
import { textTable } from '../table.ts'
import { readWords, reasonOf, textOf, type Values, WrongWords } from '../words.ts'

export const held: Command = {
  words: ['held'],
  usage: '[--json]',
  does: 'the queue of held rows, longest waiting first',
  async run(args, { terminal, call }) {
    const { values } = readWords(args, { json: { type: 'boolean' } }, { min: 0, max: 0, called: '' })
    const outcome = await heldRows(await call())
    if (!outcome.ok) throw new Error(outcome.reason)
    if (values.json === true) printJson(terminal, { held: outcome.value })
    else {
      const rows = outcome.value.map((row) => [String(row.heldId), row.patientId ?? '-', row.reason, `${row.fileName}:${row.line}`, row.sentence])
      terminal.out(textTable(['id', 'patient', 'reason', 'file:row', 'sentence'], rows))
    }
    return 0
  },
}

/** The number of a held row as the queue shows it. Throws WrongWords for anything else. */
export function heldIdOf(word: string | undefined): number {
  if (!/^\d{1,15}$/.test(word ?? '')) throw new WrongWords(`ID is the number the queue shows, not "${word ?? ''}".`)
  return Number(word)
}

type Decision = HeldAct | { readonly kind: 'patient'; readonly patientId: string }

function decisionOf(values: Values): Decision {
  const [code, unit, patientId] = [textOf(values, 'code'), textOf(values, 'unit'), textOf(values, 'patient')]
  const said: Decision[] = []
  if (values.file === true) said.push({ kind: 'file' })
  if (values.refuse === true) said.push({ kind: 'refuse' })
  if (code !== null) said.push({ kind: 'code', code })
  if (unit !== null) said.push({ kind: 'unit', unit })
  if (patientId !== null) said.push({ kind: 'patient', patientId })
  const [one, another] = said
  if (one === undefined || another !== undefined) throw new WrongWords('Say either --file or --refuse, or one of --code, --unit and --patient.')
  return one
}

const OPTIONS = {
  file: { type: 'boolean' },
  refuse: { type: 'boolean' },
  code: { type: 'string' },
  unit: { type: 'string' },
  patient: { type: 'string' },
  alike: { type: 'boolean' },
  remember: { type: 'boolean' },
  reason: { type: 'string' },
  json: { type: 'boolean' },
} as const

export const heldResolve: Command = {
  words: ['held', 'resolve'],
  usage: 'ID --file|--refuse|--code LOINC|--unit UCUM|--patient PATIENT_ID [--alike] [--remember] --reason TEXT',
  does: 'decides on a held row, with --alike on all alike: file it as it reads, refuse it, say what its code or unit means, propose whose it is',
  async run(args, { terminal, call }) {
    const { values, words } = readWords(args, OPTIONS, { min: 1, max: 1, called: 'ID' })
    const act = decisionOf(values)
    const [alike, remember] = [values.alike === true, values.remember === true]
    if (remember && (act.kind === 'file' || act.kind === 'refuse')) throw new WrongWords('--remember is for --code, --unit and --patient.')
    const wish = { heldId: heldIdOf(words[0]), alike, remember, reason: reasonOf(values) }
    const outcome =
      act.kind === 'patient'
        ? await proposePatient(await call(), { ...wish, patientId: act.patientId })
        : await decideHeld(await call(), { ...wish, act, except: [] })
    if (!outcome.ok) throw new Error(outcome.reason)
    if (values.json === true) printJson(terminal, outcome.value)
    else terminal.out(`${outcome.value.sentence}\n`)
    return 'stay' in outcome.value && outcome.value.stay.length > 0 ? 3 : 0
  },
}
