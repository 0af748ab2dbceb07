import type { AnswerChoice } from '../../../lib/usecases/index.ts'

type Kind = AnswerChoice['kind']

/** What one key does. */
export type Command =
  | { readonly does: 'next' | 'previous' | 'open' | 'write' | 'take-back' | 'help' }
  | { readonly does: 'answer'; readonly kind: Kind }

/** The letter of each kind of answer: the first of its words. */
export const KIND_KEYS: Readonly<Record<Kind, string>> = {
  seen: 's',
  'repeat-ordered': 'r',
  'visit-brought-forward': 'v',
  contacted: 'c',
  'bring-back': 'b',
  'handed-to-physician': 'h',
}

const COMMANDS: Readonly<Record<string, Command>> = {
  n: { does: 'next' },
  p: { does: 'previous' },
  o: { does: 'open' },
  w: { does: 'write' },
  z: { does: 'take-back' },
  '?': { does: 'help' },
  ...Object.fromEntries(Object.entries(KIND_KEYS).map(([kind, key]) => [key, { does: 'answer', kind: kind as Kind }])),
}

/** The keys as a list to read, in the order of the work. */
export const KEYS_SAY: readonly (readonly [keys: string, says: string])[] = [
  ['n', 'next patient (also the arrow down, in the list)'],
  ['p', 'previous patient (also the arrow up, in the list)'],
  ['o', 'open the patient beside the list'],
  ['s', 'answer: seen'],
  ['r', 'answer: repeat ordered'],
  ['v', 'answer: visit brought forward'],
  ['c', 'answer: contacted'],
  ['b', 'answer: bring back on a day'],
  ['h', 'hand to a physician'],
  ['w', 'write the note'],
  ['Enter', 'in the note: send the answer'],
  ['z', 'take the last answer back'],
  ['Esc', 'leave the note; close what is beside the list'],
  ['?', 'these keys'],
]

const WRITES = 'textarea, select, [contenteditable], input:not([type=radio], [type=checkbox], [type=button], [type=submit])'

/** True where letters are text. */
export function isWriting(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest(WRITES) !== null
}

interface Pressed {
  readonly key: string
  readonly ctrlKey: boolean
  readonly metaKey: boolean
  readonly altKey: boolean
}

/** What a key does in the list and beside it; null where it does what it does everywhere. Arrows move in the list only: beside it they scroll and choose. */
export function commandOf({ key, ctrlKey, metaKey, altKey }: Pressed, { inList }: { readonly inList: boolean }): Command | null {
  if (ctrlKey || metaKey || altKey) return null
  if (inList && key === 'ArrowDown') return { does: 'next' }
  if (inList && key === 'ArrowUp') return { does: 'previous' }
  return COMMANDS[key.length === 1 ? key.toLowerCase() : key] ?? null
}
