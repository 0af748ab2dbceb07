import fc from 'fast-check'

/** One thing that happens to a file on its way. `at` chooses where, `put` what. */
interface Mutation {
  readonly kind:
    | 'word'
    | 'number'
    | 'any-number'
    | 'comma'
    | 'behind'
    | 'line-twice'
    | 'line-gone'
    | 'lines-swapped'
    | 'separator'
    | 'cut'
    | 'text'
    | 'byte'
  readonly at: number
  readonly put: string
}

const WORDS = [
  '',
  'Null',
  'NaN',
  '__proto__',
  'constructor',
  'toString',
  'hasOwnProperty',
  '=1+1',
  "O'Brien",
  '\u05db\u05d4\u05df',
  '\u202e',
  '\ud83d\ude00',
]
const DATES = [
  '2024-02-30',
  '2024-06-03T24:00Z',
  '2024-06-03T08:15+25:00',
  '2024-06-03T08:15:60+02:00',
  '0000-01-01',
  '0001-01-01',
  '2999-01-01',
  '12.03.50',
]
const NUMBERS = [
  ...[
    '12,5',
    '1.234,5',
    '1,234.5',
    '1 234',
    '1\u00a0234',
    '-3',
    '-0',
    '0',
    '0x1F',
    '1e309',
    '1e-99',
    '1e5',
    '+7',
    '7.',
    '.7',
    '007',
    '<',
    '<0',
    '> 5',
  ],
  ...['Infinity', '#NUM!', '\u0661\u0662', '\uff11\uff12', '\u22123', '9'.repeat(41), '14.2 H', '1_000', '1e', '--1', '5\u00b2'],
]
const MARKS = [
  '',
  ',',
  ';',
  '"',
  '\n',
  '\r',
  '\t',
  '|',
  '^',
  '~',
  '\\',
  '&',
  '{',
  '}',
  '[',
  ']',
  ':',
  'e',
  '-',
  '.',
  '9',
  '\u00e9',
  '\u0000',
  '\ufeff',
]

const BEHIND = [' H', ' g/L', '*', '%', 'e', 'e3', '.5', ',5', '0', '\u00a0', ' (repeat)', '-15']

function mutationOf(kinds: readonly Mutation['kind'][], puts: readonly string[]): fc.Arbitrary<Mutation> {
  return fc.record({ kind: fc.constantFrom(...kinds), at: fc.nat(1_000_000), put: fc.constantFrom(...puts) })
}
const mutation = fc.oneof(
  { weight: 4, arbitrary: mutationOf(['number', 'comma', 'behind'], [...NUMBERS, ...BEHIND]) },
  { weight: 1, arbitrary: mutationOf(['any-number'], [...NUMBERS, ...DATES]) },
  { weight: 1, arbitrary: mutationOf(['word'], [...WORDS, ...DATES]) },
  { weight: 2, arbitrary: mutationOf(['line-twice', 'line-gone', 'lines-swapped', 'separator', 'cut', 'byte'], MARKS) },
  { weight: 1, arbitrary: mutationOf(['text'], [...MARKS, ...NUMBERS]) },
)
export const mutations = fc.array(mutation, { maxLength: 4 })

/** A cell, component or JSON value that is a number and nothing else. */
const WHOLE = /(?<=["|:^<>-])\d*\.?\d+(?=[",|}^\r-])/g

/** Puts something in the place of the nth piece a pattern finds. */
function putInPlace(text: string, pattern: RegExp, at: number, put: (piece: string) => string): string {
  const found = [...text.matchAll(pattern)]
  const one = found[at % Math.max(found.length, 1)]
  return one === undefined ? text : text.slice(0, one.index) + put(one[0]) + text.slice(one.index + one[0].length)
}

function withLines(text: string, change: (lines: string[], at: number) => void, { at }: Mutation): string {
  const end = text.includes('\n') ? '\n' : text.includes('\r') ? '\r' : '},'
  const lines = text.split(end)
  change(lines, at % lines.length)
  return lines.join(end)
}

function mutated(text: string, one: Mutation): string {
  const where = one.at % (text.length + 1)
  switch (one.kind) {
    case 'word':
      return putInPlace(text, /[A-Za-z_][\w/*-]*/g, one.at, () => one.put)
    case 'number':
      return putInPlace(text, WHOLE, one.at, () => one.put)
    case 'any-number':
      return putInPlace(text, /\d[\d.]*/g, one.at, () => one.put)
    case 'comma':
      return putInPlace(text, /\d*\.\d+/g, one.at, (number) => number.replace('.', ','))
    case 'behind':
      return putInPlace(text, WHOLE, one.at, (number) => number + one.put)
    case 'line-twice':
      return withLines(text, (lines, at) => lines.splice(at, 0, lines[at] ?? ''), one)
    case 'line-gone':
      return withLines(text, (lines, at) => lines.splice(at, 1), one)
    case 'lines-swapped':
      return withLines(text, (lines, at) => lines.push(...lines.splice(at, 1)), one)
    case 'separator':
      return text.replaceAll([',', '|', '\n', '\r', ':', '"'][one.at % 6] ?? ',', one.put)
    case 'cut':
      return text.slice(0, where)
    case 'text':
      return text.slice(0, where) + one.put + text.slice(where + (one.at % 2))
    case 'byte':
      return text
  }
}

/** The bytes of a good file after all that happened to it. */
export function sent(text: string, all: readonly Mutation[]): Uint8Array {
  const bytes = Buffer.from(all.reduce(mutated, text))
  for (const { kind, at } of all) if (kind === 'byte' && bytes.length > 0) bytes[at % bytes.length] = (at >> 5) & 0xff
  return bytes
}
