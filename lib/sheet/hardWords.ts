/**
 * Words that stand on no sheet and in no glossary entry of ours: they judge, foretell or frighten, or belong to the lists of the people who work here.
 * Beginnings of words; each is looked for from the start of a word on.
 */
const HARD = [
  'progress',
  'relaps',
  'recur',
  'worse',
  'worsen',
  'deteriorat',
  'cancer',
  'tumour',
  'tumor',
  'malign',
  'terminal',
  'incurable',
  'fatal',
  'lethal',
  'surviv',
  'prognos',
  'risk',
  'danger',
  'urgent',
  'alarm',
  'alert',
  'critical',
  'severe',
  'fail',
  'refractory',
  'death',
  'dead',
  'dying',
  'die',
  'dies',
  'probab',
  'chance of',
  'same day',
  'same-day',
  'within 7 days',
  'within 30 days',
  'overdue',
  'finding',
  'percent',
  'per cent',
] as const

const WHOLE = new Set<string>(['die', 'dies', 'dead'])
const PATTERNS = HARD.map((word) => new RegExp(`(?<!\\p{L})${word}${WHOLE.has(word) ? '(?!\\p{L})' : '\\p{L}*'}`, 'giu'))

/** The hard words a text holds as they stand there, in small letters, and the sign for per cent, each once. A physician is told of them, never refused. */
export function hardWordsIn(text: string): readonly string[] {
  const found = PATTERNS.flatMap((pattern) => [...text.matchAll(pattern)].map(([word]) => word.toLowerCase()))
  return [...new Set(text.includes('%') ? [...found, '%'] : found)]
}
