import { firstBadByte } from '../fileBytes.ts'
import { ENDS } from '../json/faultWords.ts'
import type { Json } from '../json/json.ts'
import { type JsonFault, type KeysSeen, parsePart } from '../json/parseJson.ts'
import { MOST_BYTES_OF_ENTRY, pieceEnd } from './pieceEnd.ts'
import { decoded } from './textBytes.ts'
import { Unreadable } from './unreadable.ts'
import type { Windows } from './windows.ts'

/** One JSON value of a file with its text, and the place behind it. */
export interface Piece {
  readonly value: Json
  readonly text: string
  readonly to: number
}

const bytesOf = (text: string): number => Buffer.byteLength(text, 'utf8')

/** Longer than an escape or a word: a fault so close before a cut may come from the cut. */
const NEAR = 8

/** A fault of a text that begins at a byte of the file. */
export function unreadable({ reason, at, detail }: JsonFault, text: string, from: number): Unreadable {
  return new Unreadable(reason, from + bytesOf(text.slice(0, at)), detail)
}

/** Why a piece that was cut for its size is not read: a fault before the cut, which may be why it seems so large, else its size. */
export function tooLarge(windows: Windows, from: number, depth: number, keys: KeysSeen): Unreadable {
  const text = new TextDecoder().decode(windows.bytes(from, from + MOST_BYTES_OF_ENTRY))
  const parsed = parsePart(text, depth, keys)
  const isCut = parsed.ok || parsed.at > text.length - NEAR || parsed.detail === ENDS
  return isCut || parsed.reason === 'too-many-values' ? new Unreadable('too-large', from) : unreadable(parsed, text, from)
}

/** The text of some bytes of the file. Throws `Unreadable`. */
export function textOf(windows: Windows, from: number, to: number): string {
  const bytes = windows.bytes(from, to)
  const text = decoded(bytes)
  if (text === null) throw new Unreadable('not-utf-8', from + firstBadByte(bytes))
  return text
}

/** Reads the value that begins at `from`, inside so many objects and lists. Throws `Unreadable`. */
export function readPiece(windows: Windows, from: number, depth: number, keys: KeysSeen): Piece {
  const end = pieceEnd(windows, from)
  if (end - from > MOST_BYTES_OF_ENTRY) throw tooLarge(windows, from, depth, keys)
  const text = textOf(windows, from, end)
  const parsed = parsePart(text, depth, keys)
  if (!parsed.ok) throw parsed.reason === 'too-many-values' ? new Unreadable('too-large', from) : unreadable(parsed, text, from)
  // Only behind a number or a word, which are ASCII, may a piece hold more than its value.
  return { value: parsed.value, text, to: parsed.to === text.length ? end : from + parsed.to }
}
