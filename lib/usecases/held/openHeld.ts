import { analyteOfCode, analyteUnit, field, loincCodes, patientIdOf } from '../../intake/index.ts'
import type { HeldRow } from '../../store/index.ts'
import { day, daysBetween } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import { readRow } from '../intake/readRow.ts'
import { meantHeld } from '../intake/releaseHeld.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { alikeRows } from './alikeRows.ts'
import { choiceView } from './choiceView.ts'
import { judgedMeaning } from './meaning.ts'
import { neighboursOf } from './neighbours.ts'
import { identifierNotRemembered, isQuestionWhose } from './proposePatient.ts'
import { rememberingReader } from './rememberingReader.ts'
import { seesPatients } from './seesPatients.ts'
import { sentenceFor } from './sentenceFor.ts'
import { understood } from './understood.ts'
import type { HeldDetailView, OffersView } from './views.ts'

/** A meaning that is tried on the page before it is decided; empty: none. */
export interface Trial {
  readonly code: string
  readonly unit: string
}

const ASKS_UNIT = ['unit-missing', 'unit-unknown', 'unit-dimension', 'out-of-range', 'escape-unknown']
const ASKS_CODE = ['unknown-code', 'escape-unknown']

function offers(call: Call, held: HeldRow): OffersView {
  const { reader } = call.store
  const isResult = held.kind === 'results'
  const analyte = isResult ? analyteOfCode(field(meantHeld(reader, held).raw, 'code')) : null
  const asksCode = isResult && ASKS_CODE.includes(held.reason)
  const unit = analyte !== null && ASKS_UNIT.includes(held.reason) ? (analyteUnit(analyte)?.kept ?? null) : null
  const [anyCode] = loincCodes()
  const code = asksCode && anyCode !== undefined ? judgedMeaning(reader, held, { kind: 'code', code: anyCode[0] }) : null
  const kept = unit === null ? null : judgedMeaning(reader, held, { kind: 'unit', unit })
  const whose = isQuestionWhose(held)
  return {
    codes: code?.ok ? loincCodes() : null,
    codeNotRemembered: code?.ok ? code.meaning.notRemembered : null,
    unit,
    unitNotRemembered: kept?.ok ? kept.meaning.notRemembered : null,
    patient: whose && seesPatients(call),
    patientNotRemembered: whose ? identifierNotRemembered(held) : null,
  }
}

/** What is tried of a row, as if it had been decided of it. */
function tried(call: Call, held: HeldRow, { code, unit }: Trial): { held: HeldRow; decided: Record<string, string>; problem: string | null } {
  const decided: Record<string, string> = {}
  for (const said of [code === '' ? null : ({ kind: 'code', code } as const), unit === '' ? null : ({ kind: 'unit', unit } as const)]) {
    if (said === null) continue
    const judged = judgedMeaning(call.store.reader, { ...held, decided: { ...held.decided, ...decided } }, said)
    if (!judged.ok) return { held, decided: {}, problem: judged.reason }
    decided[judged.meaning.kind] = judged.meaning.meaning
  }
  return { held: { ...held, decided: { ...held.decided, ...decided } }, decided, problem: null }
}

function stoppedBy(call: Call, held: HeldRow): string | null {
  const { raw } = meantHeld(call.store.reader, held)
  const { read } = readRow(raw, call.store.reader.patient(patientIdOf(raw))?.patient ?? null, call.today)
  return read.outcome === 'take' ? null : sentenceFor(call, read.sentence)
}

/** A reason is typed text and may tell of the patient: who may see none reads their own. */
function resolvedFor(call: Call, { resolved }: HeldRow): HeldDetailView['resolved'] {
  if (resolved === null || seesPatients(call) || resolved.by === call.actor.name) return resolved
  return { ...resolved, reason: null }
}

/**
 * Everything a person needs to decide on one held row: as received beside what was made of it, the patient's values around it, the rows alike, and what
 * a code or unit would make of all of them. Who may open no patient sees the text of rows only. The log keeps whose course was shown.
 */
export async function openHeld(call: Call, heldId: number, trial: Trial): Promise<Outcome<HeldDetailView>> {
  const refused = await refusedUnlessMay(call, 'held.read', `held row ${heldId}`)
  if (refused !== null) return refused
  const { reader } = call.store
  const stored = reader.heldRow(heldId)
  if (stored === null) return { ok: false, kind: 'not-found', reason: `No held row has the number ${heldId}.` }
  const sees = seesPatients(call)
  const isTried = trial.code !== '' || trial.unit !== ''
  const { held, decided, problem } = tried(call, stored, trial)
  const value = reader.atOnce((): HeldDetailView => {
    const remembering = rememberingReader(reader)
    const rows = reader.heldAlike(heldId).flatMap((id) => reader.heldRow(id) ?? [])
    const shown = alikeRows(remembering, rows, (row) => ({ ...row, decided: { ...row.decided, ...decided } }), sees)
    const choice =
      reader.waitingChoiceOf(heldId) ?? reader.waitingChoices().find((one) => one.alike && rows.some(({ id }) => id === one.heldId)) ?? null
    const { kind, reason, source, fileName, line, receivedAt, receivedOn, row, fields, returnedBy } = stored
    const sentence = sentenceFor(call, stored.sentence)
    const resolved = resolvedFor(call, stored)
    const waitingDays = Math.max(0, daysBetween(day(receivedOn), call.today))
    return {
      ...{ heldId, kind, reason, sentence, source, fileName, line, receivedAt, waitingDays, returnedBy, resolved, text: row, seesPatients: sees },
      fields: Object.entries(fields).filter(([, text]) => text !== ''),
      decided: stored.decided,
      understood: understood(remembering, held),
      neighbours: sees ? neighboursOf(remembering, held) : null,
      tried: isTried ? { ...trial, problem, stopped: problem === null ? stoppedBy(call, held) : null } : null,
      alike: { ...reader.heldAlikeCounts(heldId), shown, odd: shown.filter(({ odd }) => odd).length },
      offers: offers(call, stored),
      choice: choice === null ? null : choiceView(call, choice),
    }
  })
  const patientIds = new Set(value.alike.shown.flatMap(({ beside, patientId }) => (beside === null || patientId === null ? [] : [patientId])))
  const near = value.neighbours?.patientId ?? null
  if (near !== null) patientIds.delete(near)
  const opened = { action: 'held-opened', heldId, patientId: near, beside: [...patientIds].toSorted() } as const
  const whose = value.choice?.compared == null ? null : value.choice.patientId
  const compared = whose === null ? [] : [{ action: 'held-compared', heldId, patientId: whose } as const]
  await call.store.record(call, () => ({ value: null, events: [opened, ...compared] }))
  return { ok: true, value }
}
