import { parseArgs } from 'node:util'

export const PARTS = ['intake', 'evaluate', 'arrival', 'list', 'day', 'memory'] as const
export type Part = (typeof PARTS)[number]

/** What is measured, and how large. */
export interface Sizes {
  /** The name of what keeps the databases. */
  readonly engine: string
  readonly json: boolean
  readonly more: boolean
  readonly only: readonly Part[]
  /** Rows of the file that is taken in. */
  readonly rows: number
  /** Patients evaluated, each with 15 years of 25 analytes a month. */
  readonly evaluate: number
  /** Patients of the small clinic, and of the large one: of arrivals, changes of day, and the further figures. */
  readonly few: number
  readonly patients: number
  /** Patients on the list that is served over HTTP. */
  readonly list: number
  readonly rounds: number
}

const DEFAULTS = { rows: '1000000', evaluate: '1000', few: '500', patients: '20000', list: '100000', rounds: '5' } as const
const LEAST = { rows: 1000, evaluate: 20, few: 50, patients: 50, list: 50, rounds: 5 } as const
type Named = keyof typeof DEFAULTS

function refuse(says: string): never {
  process.stderr.write(`${says}\n`)
  process.exit(2)
}

/** Reads the words behind `npm run bench --`. Ends the program with what it takes where one cannot be read. */
export function readSizes(args: readonly string[]): Sizes {
  const text = (name: Named) => ({ type: 'string', default: DEFAULTS[name] }) as const
  const { values } = parseArgs({
    args: [...args],
    options: {
      engine: { type: 'string', default: 'sqlite' },
      json: { type: 'boolean', default: false },
      more: { type: 'boolean', default: false },
      only: { type: 'string', default: PARTS.join(',') },
      ...{ rows: text('rows'), evaluate: text('evaluate'), few: text('few'), patients: text('patients'), list: text('list'), rounds: text('rounds') },
    },
  })
  const whole = (name: Named): number => {
    const number = /^\d{1,9}$/.test(values[name]) ? Number(values[name]) : Number.NaN
    return number >= LEAST[name] ? number : refuse(`--${name} takes a whole number, at least ${LEAST[name]}, not "${values[name]}".`)
  }
  const only = values.only.split(',').filter((part) => part !== '')
  const unknown = only.find((part) => !(PARTS as readonly string[]).includes(part))
  if (unknown !== undefined) refuse(`--only takes some of ${PARTS.join(', ')}, with commas between, not "${unknown}".`)
  return {
    engine: values.engine,
    json: values.json,
    more: values.more,
    only: only as Part[],
    rows: whole('rows'),
    evaluate: whole('evaluate'),
    few: whole('few'),
    patients: whole('patients'),
    list: whole('list'),
    rounds: whole('rounds'),
  }
}
