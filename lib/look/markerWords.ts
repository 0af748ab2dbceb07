import { ANALYTES, type Analyte, analyteWords } from '../results/index.ts'
import { unitWords } from '../units/index.ts'

/** What is computed from several results, as a sentence names it. */
const COMPUTED: Readonly<Record<string, string>> = { dflc: 'dFLC', 'involved-flc': 'involved free light chain', 'involved-ratio': 'involved ratio' }

const isAnalyte = (name: string): name is Analyte => (ANALYTES as readonly string[]).includes(name)

/** A marker or analyte inside a sentence: `serum M-protein`, `dFLC`. */
export function markerWords(name: string): string {
  return COMPUTED[name] ?? (isAnalyte(name) ? analyteWords(name) : name.replaceAll('-', ' '))
}

/** Unit behind a number, with a blank before it; nothing for a ratio. */
export function unitAfter(unit: string): string {
  return unit === '1' || unit === '' ? '' : ` ${unitWords(unit)}`
}
