import { TEST_SERVER } from './testServer.ts'

/** What each engine says when a rule of a table refuses a row. */
const WORDS = {
  check: ['CHECK constraint failed', 'violates check constraint'],
  unique: ['UNIQUE constraint failed', 'violates unique constraint'],
  'foreign key': ['FOREIGN KEY constraint failed', 'violates foreign key constraint'],
  constraint: ['constraint failed', 'violates (?:check|unique|foreign key|not-null) constraint'],
  // STRICT tables tell a wrong type only when the row is kept; PostgreSQL reads no row that has one.
  type: ['cannot store TEXT', 'invalid input syntax for type'],
} as const

/** What the error says of a row that one of these rules refused, or whose guard said one of `words`. */
export function refusedBy(rules: readonly (keyof typeof WORDS)[], ...words: readonly string[]): RegExp {
  const engine = TEST_SERVER === null ? 0 : 1
  return new RegExp([...rules.map((rule) => WORDS[rule][engine]), ...words].join('|'))
}

/** What the driver names its errors, and the code of one that a trigger raised. */
export const [REFUSED_NAME, REFUSED_CODE] = TEST_SERVER === null ? ['SqliteError', 'SQLITE_CONSTRAINT_TRIGGER'] : ['ServerFault', 'P0001']
