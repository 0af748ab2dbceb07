import { commaNumber } from './commaNumber.ts'
import type { SourceProfile } from './knowledge.ts'
import { writtenDate } from './writtenDate.ts'

/** A text a source may send, and what a profile makes of it. */
export interface ProfileExample {
  readonly text: string
  readonly says: string
}

const HELD = 'held'
const REFUSED = 'refused'

function number(text: string, { decimalSign }: SourceProfile): string {
  if (decimalSign === 'point') return /[, ]/.test(text) ? HELD : `read as ${text}`
  const read = commaNumber(text)
  return typeof read === 'object' ? `read as ${read.text}` : HELD
}

const MONTHS = ['January', 'February', 'March', 'April', 'May', 'June', 'July', 'August', 'September', 'October', 'November', 'December']

function inWords(iso: string): string {
  const [year, month, rest = ''] = iso.split('-')
  return `${Number(rest.slice(0, 2))} ${MONTHS[Number(month) - 1]} ${year}`
}

function date(text: string, profile: SourceProfile): string {
  const read = writtenDate(text, profile)
  return typeof read === 'object' && 'text' in read ? `read as ${inWords(read.text)}` : REFUSED
}

function time(text: string, profile: SourceProfile): string {
  const read = writtenDate(text, profile)
  if (read === 'not-concerned' || 'fault' in read) return REFUSED
  return 'text' in read ? `read as ${read.text.replace('T', ' ')}` : `${HELD}: it came twice that night`
}

/** What a profile makes of some texts, worked out with the functions that read rows. */
export function profileExamples(profile: SourceProfile): readonly ProfileExample[] {
  return [
    ...['12,5', '12.5', '1.234,5', '1.234'].map((text) => ({ text, says: number(text, profile) })),
    ...['03/02/2026', '13.02.2026'].map((text) => ({ text, says: date(text, profile) })),
    ...['2026-03-29 08:00', '2026-10-25 02:30'].map((text) => ({ text, says: time(text, profile) })),
  ]
}
