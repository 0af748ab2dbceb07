import { ENDS, NO_COLON, NO_KEY, noComma, twice } from '../json/faultWords.ts'
import type { KeysSeen } from '../json/parseJson.ts'
import { type Piece, readPiece } from './piece.ts'
import { MOST_BYTES_OF_ENTRY } from './pieceEnd.ts'
import { behindBlanks } from './textBytes.ts'
import { Unreadable } from './unreadable.ts'
import type { Windows } from './windows.ts'

/** What the object of a document says about itself, without its entries. */
export interface Outline {
  /** Empty where it is no text. */
  readonly resourceType: string
  readonly type: string
  readonly names: ReadonlySet<string>
  readonly entry: 'none' | 'list' | 'no list'
  /** Behind its last byte. */
  readonly to: number
}

const [QUOTE, COLON, COMMA, LIST] = [0x22, 0x3a, 0x2c, 0x5b]

class Reading {
  private readonly windows: Windows
  private readonly keys: KeysSeen
  private readonly onEntry: (entry: Piece, from: number) => void
  private readonly texts = new Map<string, string>()
  private readonly names = new Set<string>()
  private readonly start: number
  private at: number
  private outside = 0
  private entry: Outline['entry'] = 'none'

  constructor(windows: Windows, start: number, keys: KeysSeen, onEntry: (entry: Piece, from: number) => void) {
    this.windows = windows
    this.start = start
    this.at = start
    this.keys = keys
    this.onEntry = onEntry
  }

  object(): Outline {
    this.step()
    if (this.is(0x7d)) this.at++
    else
      do {
        this.member()
        if (this.outside > MOST_BYTES_OF_ENTRY) throw new Unreadable('too-large', this.start)
      } while (this.goesOn('}'))
    const text = (name: string) => this.texts.get(name) ?? ''
    return { resourceType: text('resourceType'), type: text('type'), names: this.names, entry: this.entry, to: this.at }
  }

  private is(byte: number): boolean {
    return this.windows.byteAt(this.at) === byte
  }

  /** Over one mark and the blanks behind it. */
  private step(): void {
    this.at = behindBlanks(this.windows, this.at + 1)
  }

  private broken(detail: string): Unreadable {
    return new Unreadable('broken-json', this.at, this.at >= this.windows.length ? ENDS : detail)
  }

  private piece(depth: number): Piece {
    const piece = readPiece(this.windows, this.at, depth, this.keys)
    this.at = piece.to
    return piece
  }

  /** True behind a comma, false behind the end. What follows the last mark is left for who reads on. */
  private goesOn(end: '}' | ']'): boolean {
    this.at = behindBlanks(this.windows, this.at)
    const isComma = this.is(COMMA)
    if (!isComma && !this.is(end.charCodeAt(0))) throw this.broken(noComma(end))
    if (isComma) this.step()
    else this.at++
    return isComma
  }

  private member(): void {
    const from = this.at
    if (!this.is(QUOTE)) throw this.broken(NO_KEY)
    const name = String(this.piece(1).value)
    if (this.names.has(name)) throw new Unreadable('duplicate-key', from, twice(name))
    this.names.add(name)
    this.at = behindBlanks(this.windows, this.at)
    if (!this.is(COLON)) throw this.broken(NO_COLON)
    this.step()
    this.outside += this.at - from
    if (name === 'entry' && this.is(LIST)) {
      this.entry = 'list'
      this.list()
      return
    }
    const valueFrom = this.at
    const { value } = this.piece(1)
    this.outside += this.at - valueFrom
    if (name === 'entry') this.entry = 'no list'
    if ((name === 'resourceType' || name === 'type') && typeof value === 'string') this.texts.set(name, value)
  }

  private list(): void {
    this.step()
    if (this.is(0x5d)) {
      this.at++
      return
    }
    do {
      const from = this.at
      this.onEntry(this.piece(2), from)
    } while (this.goesOn(']'))
  }
}

/**
 * Reads the object that begins at `start`, as strictly as one JSON text, and hands over each value of its list `entry` with where it begins. One of them is
 * in memory at a time; of the rest only names and two short texts stay. Throws `Unreadable`.
 */
export function readOutline(windows: Windows, start: number, keys: KeysSeen, onEntry: (entry: Piece, from: number) => void): Outline {
  return new Reading(windows, start, keys, onEntry).object()
}
