import { apart } from './apart.ts'
import { ENDS, MORE_TEXT, NO_COLON, NO_KEY, noComma, twice } from './faultWords.ts'
import type { Json, JsonObject } from './json.ts'

/** Why a text is no JSON that is read; `at` counts characters from 0. */
export interface JsonFault {
  readonly ok: false
  readonly reason: 'broken-json' | 'duplicate-key' | 'nested-too-deep' | 'too-many-values'
  readonly at: number
  readonly detail: string
}

export type ParsedJson = { readonly ok: true; readonly value: Json } | JsonFault

/** Objects and lists inside each other, the outermost counted. */
const DEEPEST = 64

/** Values in one text, those of lists and objects too: each takes far more memory than its characters. (ours) */
export const MOST_VALUES = 200_000

const BLANKS = /[ \t\r\n]*/y
const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y
// biome-ignore lint/suspicious/noControlCharactersInRegex: JSON allows no control character inside a string
const PLAIN = /[^"\\\u0000-\u001f]*/y
/** What a text between quotes may be where it is exactly what is spelt. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: JSON allows no control character inside a string
const NOT_AS_SPELT = /[\\\u0000-\u001f\ud800-\udfff]/
const FOUR_HEX = /^[\da-fA-F]{4}$/
const ESCAPED = new Map([
  ['"', '"'],
  ['\\', '\\'],
  ['/', '/'],
  ['b', '\b'],
  ['f', '\f'],
  ['n', '\n'],
  ['r', '\r'],
  ['t', '\t'],
])
const WORDS: readonly (readonly [string, boolean | null])[] = [
  ['true', true],
  ['false', false],
  ['null', null],
]
const HALF_PAIR = /[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/

/** One copy of each key, shared by the documents of a file. */
export type KeysSeen = Map<string, string>
const MOST_KEYS = 1_000

/** Leaves the parser from any depth; never leaves this file. */
class Fault extends Error {
  constructor(
    readonly reason: JsonFault['reason'],
    readonly at: number,
    readonly detail: string,
  ) {
    super(detail)
  }
}

class Parser {
  private at = 0
  private values = 0
  private readonly text: string
  private readonly keys: KeysSeen
  constructor(text: string, keys: KeysSeen) {
    this.text = text
    this.keys = keys
  }

  document(): Json {
    this.blanks()
    const value = this.value(0)
    this.blanks()
    if (this.at < this.text.length) throw this.broken(MORE_TEXT)
    return value
  }

  /** The value the text begins with, inside so many levels, and where it ends. */
  first(depth: number): { readonly value: Json; readonly to: number } {
    const value = this.value(depth)
    return { value, to: this.at }
  }

  /** One copy of a key, however often it comes: files of a hundred thousand resources have the same few dozen. */
  private kept(key: string): string {
    const kept = this.keys.get(key)
    if (kept !== undefined) return kept
    if (this.keys.size >= MOST_KEYS) return key
    const copy = apart(key)
    this.keys.set(copy, copy)
    return copy
  }

  private broken(detail: string, at = this.at): Fault {
    return new Fault('broken-json', at, at >= this.text.length ? ENDS : detail)
  }

  private take(form: RegExp): string {
    form.lastIndex = this.at
    const found = form.exec(this.text)?.[0] ?? ''
    this.at += found.length
    return found
  }

  private blanks(): void {
    if (this.text.charCodeAt(this.at) <= 32) this.take(BLANKS)
  }

  private value(depth: number): Json {
    if (++this.values > MOST_VALUES) throw new Fault('too-many-values', this.at, `more than ${MOST_VALUES} values`)
    const first = this.text[this.at]
    if (first === '{') return this.object(depth + 1)
    if (first === '[') return this.list(depth + 1)
    if (first === '"') return this.string()
    const text = this.take(NUMBER)
    if (text !== '') return { kind: 'number', text }
    const word = WORDS.find(([spelt]) => this.text.startsWith(spelt, this.at))
    if (word !== undefined) {
      this.at += word[0].length
      return word[1]
    }
    throw this.broken('no JSON value begins here')
  }

  private enter(depth: number): void {
    if (depth > DEEPEST) throw new Fault('nested-too-deep', this.at, `more than ${DEEPEST} objects and lists inside each other`)
    this.at++
    this.blanks()
  }

  /** True behind a comma, false behind the end. */
  private goesOn(end: '}' | ']'): boolean {
    this.blanks()
    const mark = this.text[this.at]
    if (mark !== ',' && mark !== end) throw this.broken(noComma(end))
    this.at++
    this.blanks()
    return mark === ','
  }

  private object(depth: number): JsonObject {
    const from = this.at
    const members = new Map<string, Json>()
    this.enter(depth)
    let more = this.text[this.at] !== '}'
    if (!more) this.at++
    let to = this.at
    while (more) {
      const keyAt = this.at
      if (this.text[this.at] !== '"') throw this.broken(NO_KEY)
      const key = this.kept(this.string())
      if (members.has(key)) throw new Fault('duplicate-key', keyAt, twice(key))
      this.blanks()
      if (this.text[this.at] !== ':') throw this.broken(NO_COLON)
      this.at++
      this.blanks()
      members.set(key, this.value(depth))
      this.blanks()
      to = this.at + 1
      more = this.goesOn('}')
    }
    return { kind: 'object', members, from, to }
  }

  private list(depth: number): readonly Json[] {
    const values: Json[] = []
    this.enter(depth)
    let more = this.text[this.at] !== ']'
    if (!more) this.at++
    while (more) {
      values.push(this.value(depth))
      more = this.goesOn(']')
    }
    return values
  }

  private string(): string {
    const from = this.at
    const end = this.text.indexOf('"', from + 1)
    const spelt = this.text.slice(from + 1, end < 0 ? from + 1 : end)
    if (end > 0 && !NOT_AS_SPELT.test(spelt)) {
      this.at = end + 1
      return spelt
    }
    this.at++
    let said = this.take(PLAIN)
    while (this.text[this.at] === '\\') said += this.escape() + this.take(PLAIN)
    if (this.text[this.at] !== '"') throw this.broken('a control character stands inside a text')
    this.at++
    if (HALF_PAIR.test(said)) throw this.broken('a text holds half of a surrogate pair, which is no character', from)
    return said
  }

  private escape(): string {
    const mark = this.text[this.at + 1] ?? ''
    const plain = ESCAPED.get(mark)
    if (plain !== undefined) {
      this.at += 2
      return plain
    }
    const hex = this.text.slice(this.at + 2, this.at + 6)
    if (mark !== 'u' || !FOUR_HEX.test(hex))
      throw this.broken('JSON has no such escape', this.at + 2 >= this.text.length ? this.text.length : this.at)
    this.at += 6
    return String.fromCharCode(Number.parseInt(hex, 16))
  }
}

function soundly<Read>(read: () => Read): ({ readonly ok: true } & Read) | JsonFault {
  try {
    return { ok: true, ...read() }
  } catch (error) {
    if (error instanceof Fault) return { ok: false, reason: error.reason, at: error.at, detail: error.detail }
    throw error
  }
}

/**
 * Reads one JSON value (RFC 8259), strictly: nothing before or after it but blanks, no key twice, at most 64 levels (told before they are walked) and
 * 200,000 values, numbers kept as spelt. Never throws.
 */
export function parseJson(text: string, keys: KeysSeen = new Map()): ParsedJson {
  return soundly(() => ({ value: new Parser(text, keys).document() }))
}

/**
 * The value that a part of a larger JSON text begins with, read as strictly, and where it ends: behind a number or word more may follow. `depth` is how
 * many objects and lists stand around it. Never throws.
 */
export function parsePart(text: string, depth: number, keys: KeysSeen): { readonly ok: true; readonly value: Json; readonly to: number } | JsonFault {
  return soundly(() => new Parser(text, keys).first(depth))
}
