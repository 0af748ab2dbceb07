import { notUtf8At, type RefusedFile, refusedFile } from '../fileBytes.ts'
import { type JsonFault, MOST_VALUES } from '../json/parseJson.ts'
import { MOST_ENTRIES } from './keyTable.ts'
import { MOST_BYTES_OF_ENTRY } from './pieceEnd.ts'
import { lineFeeds } from './textBytes.ts'
import type { Windows } from './windows.ts'

/** Raised inside this folder only: a file cannot be read on from a byte, counted from 0. */
export class Unreadable extends Error {
  readonly reason: JsonFault['reason'] | 'not-utf-8' | 'too-large' | 'too-many-entries'
  readonly at: number
  constructor(reason: Unreadable['reason'], at: number, detail = '') {
    super(detail)
    this.reason = reason
    this.at = at
  }
}

const MOST = `${MOST_BYTES_OF_ENTRY / 1024 / 1024} MiB and ${MOST_VALUES} values`

/** Why a file is not read: what is wrong, on which line and at which byte of the file, both from 1. */
export function refusalOf({ reason, at, message }: Unreadable, windows: Windows, fileName: string): RefusedFile {
  if (reason === 'not-utf-8') return notUtf8At(at, fileName)
  const place = `on line ${1 + lineFeeds(windows, 0, at)} at byte ${at + 1}`
  if (reason === 'too-many-entries') {
    return refusedFile('file-too-large', `${fileName} has more than ${MOST_ENTRIES} entries. Send them in several files.`)
  }
  if (reason === 'too-large' || reason === 'too-many-values') {
    return refusedFile('file-too-large', `${fileName} has an entry, ${place}, that is larger than one may be: ${MOST}.`)
  }
  return refusedFile(reason, `${fileName} cannot be read as JSON, ${place}: ${message}.`)
}
