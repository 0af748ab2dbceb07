import { analyteOfCode, analyteUnit, field, whyNeverMapped } from '../../intake/index.ts'
import type { HeldRow, Reader } from '../../store/index.ts'
import { unitFactor } from '../../units/index.ts'
import { meantHeld, rawRowOf } from '../intake/releaseHeld.ts'

/** What a person says a column of a held row means. */
export type SaidMeaning = { readonly kind: 'code'; readonly code: string } | { readonly kind: 'unit'; readonly unit: string }

/** What is kept of it: the column and its meaning, the text it stands for, and why later files cannot be read by it (null: they can). */
export interface Meaning {
  readonly kind: 'code' | 'unit'
  readonly received: string
  readonly ofCode: string | null
  readonly meaning: string
  readonly notRemembered: string | null
}

type Judged = { readonly ok: true; readonly meaning: Meaning } | { readonly ok: false; readonly reason: string }

const no = (reason: string): Judged => ({ ok: false, reason })

/** Why nothing can be remembered of this row's source whatever it is; null where it can. */
function noSource({ source }: HeldRow): string | null {
  return source === null ? 'Nobody said who sent the file, so nothing can be remembered of its source: this decides for these rows only.' : null
}

function codeMeans(held: HeldRow, typed: string): Judged {
  const [code, received] = [typed.trim(), field(rawRowOf(held), 'code')]
  const never = whyNeverMapped(code)
  if (never !== null) return no(`${code} is ${never}: no row is read as it.`)
  if (analyteOfCode(code) === null) return no(`"${code}" is the code of nothing that is followed here.`)
  const receivedIs = whyNeverMapped(received)
  if (receivedIs !== null) return no(`The row says ${received}, which is ${receivedIs}: it never stands for something followed here. Refuse the row.`)
  if (analyteOfCode(received) !== null && held.reason !== 'unknown-code')
    return no(`The row says ${received} itself; what a row says is never overruled.`)
  const other = analyteOfCode(received) !== null && received !== code
  const notRemembered =
    noSource(held) ?? (other ? `${received} is a code that rows of this source use for itself: this decides for these rows only.` : null)
  return { ok: true, meaning: { kind: 'code', received, ofCode: null, meaning: code, notRemembered } }
}

function unitMeans(reader: Pick<Reader, 'sourceKnowledge'>, held: HeldRow, typed: string): Judged {
  const raw = rawRowOf(held)
  const analyte = analyteOfCode(field(meantHeld(reader, held).raw, 'code'))
  if (analyte === null) return no('What the code means comes first: a unit is decided for a code.')
  const unit = analyteUnit(analyte)
  if (unit === null) return no(`An immunofixation has no unit.`)
  const asked = unitFactor(typed.trim(), unit.kept, unit.bridge)
  if (typed.trim() === '' || (!asked.ok && asked.reason === 'unit-unknown')) return no(`"${typed.trim()}" is no UCUM unit.`)
  if (!asked.ok) return no(`"${typed.trim()}" is a unit of something else: ${analyte} is kept in ${unit.kept}, and it does not convert.`)
  const [received, ofCode] = [field(raw, 'unit'), field(raw, 'code')]
  const readable = received !== '' && unitFactor(received, unit.kept, unit.bridge).ok
  const notRemembered =
    noSource(held) ??
    (received === ''
      ? 'What rows without a unit mean for later files is part of the profile of the source: this decides for these rows only.'
      : null) ??
    (readable ? `"${received}" can be read as it stands, so later rows are never read otherwise: this decides for these rows only.` : null)
  return { ok: true, meaning: { kind: 'unit', received, ofCode, meaning: asked.ucum, notRemembered } }
}

/** Judges what a person says a code or a unit of a held row means: it has to be followed here, and a unit has to convert. Nothing is guessed. */
export function judgedMeaning(reader: Pick<Reader, 'sourceKnowledge'>, held: HeldRow, said: SaidMeaning): Judged {
  if (held.kind !== 'results') return no('Only a row of results has a code and a unit.')
  return said.kind === 'code' ? codeMeans(held, said.code) : unitMeans(reader, held, said.unit)
}
