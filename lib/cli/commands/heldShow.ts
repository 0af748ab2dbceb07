import { confirmPatient, declinePatient, type HeldDetailView, openHeld } from '../../usecases/index.ts'
import { type Command, printJson } from '../command.ts'
import { textTable } from '../table.ts'
import { readWords, reasonOf } from '../words.ts'
import { heldIdOf } from './held.ts'

function madeOf({ understood: made }: HeldDetailView): string[] {
  if (made === null) return []
  const printed = made.printed === null ? '' : ` (printed ${made.printed})`
  return [
    `  patient: ${made.patientId ?? 'none named'}${made.patientKnown ? '' : ', unknown here'}`,
    `  collected on: ${made.collectedOn ?? 'cannot be read'}`,
    `  analyte: ${made.analyte ?? 'cannot be read'}`,
    `  value: ${made.value ?? 'cannot be read'}${printed}`,
  ]
}

function textOfDetail(row: HeldDetailView): string {
  const { choice, neighbours, alike } = row
  const lines = [
    `Row ${row.heldId}: ${row.reason}. ${row.sentence}`,
    `File ${row.fileName}, row ${row.line}, source ${row.source ?? 'not named'}, received ${row.receivedAt}.`,
    'As received:',
    ...row.fields.map(([name, text]) => `  ${name}: ${text}`),
    ...(row.understood === null ? [] : ['What Lowmark made of it:', ...madeOf(row)]),
    `Alike: ${alike.rows} of ${alike.patients} patients${alike.odd === 0 ? '' : `, ${alike.odd} far from the patient's own values`}.`,
    ...(choice === null ? [] : [`Proposed by ${choice.proposedBy}: patient ${choice.patientId}; it waits for somebody else to confirm it.`]),
  ]
  if (neighbours === null) return `${lines.join('\n')}\n`
  const rows = neighbours.values.map(({ on, says, printed, isHeld }) => [on, says, printed, isHeld ? 'this row' : ''])
  return `${lines.join('\n')}\n${textTable(['collected', neighbours.analyte, 'printed', ''], rows)}`
}

export const heldShow: Command = {
  words: ['held', 'show'],
  usage: 'ID [--json]',
  does: "one held row: as received, what was made of it, the patient's values around it, and how many rows are alike",
  async run(args, { terminal, call }) {
    const { values, words } = readWords(args, { json: { type: 'boolean' } }, { min: 1, max: 1, called: 'ID' })
    const heldId = heldIdOf(words[0])
    const outcome = await openHeld(await call(), heldId, { code: '', unit: '' })
    if (!outcome.ok) throw new Error(outcome.reason)
    if (values.json === true) printJson(terminal, outcome.value)
    else terminal.out(textOfDetail(outcome.value))
    return 0
  },
}

export const heldConfirm: Command = {
  words: ['held', 'confirm'],
  usage: 'ID [--json]',
  does: 'confirms, as a second person, whose a held row was proposed to be, and files it',
  async run(args, { terminal, call }) {
    const { values, words } = readWords(args, { json: { type: 'boolean' } }, { min: 1, max: 1, called: 'ID' })
    const heldId = heldIdOf(words[0])
    const outcome = await confirmPatient(await call(), { heldId })
    if (!outcome.ok) throw new Error(outcome.reason)
    if (values.json === true) printJson(terminal, outcome.value)
    else terminal.out(`${outcome.value.sentence}\n`)
    return outcome.value.stay.length > 0 ? 3 : 0
  },
}

export const heldDecline: Command = {
  words: ['held', 'decline'],
  usage: 'ID --reason TEXT',
  does: 'declines whose a held row was proposed to be; it stays held',
  async run(args, { terminal, call }) {
    const { values, words } = readWords(args, { reason: { type: 'string' } }, { min: 1, max: 1, called: 'ID' })
    const wish = { heldId: heldIdOf(words[0]), reason: reasonOf(values) }
    const outcome = await declinePatient(await call(), wish)
    if (!outcome.ok) throw new Error(outcome.reason)
    terminal.out(`${outcome.value.sentence}\n`)
    return 0
  },
}
