import { UcumLhcUtils } from '@lhncbc/ucum-lhc'
import { type Decimal, decimal } from './decimal.ts'
import { ucumCodeOf } from './unitSynonyms.ts'

/** A step between mass and amount of substance that only the substance itself decides: 1 `from` is `factor` of the unit kept, exactly. */
export interface Bridge {
  readonly from: string
  readonly factor: string
}

/** How a unit becomes the unit kept: multiply by `factor`. `ucum` is its UCUM code, or the kept unit's own text where both are the same unit. */
export type UnitReading =
  | { readonly ok: true; readonly factor: Decimal; readonly ucum: string }
  | { readonly ok: false; readonly reason: 'unit-unknown' | 'unit-dimension' }

/** International units of a standard preparation scale like any other unit, but UCUM libraries refuse arbitrary units. */
const ARBITRARY = new Map<string, string>([
  ['[IU]/mL', '1'],
  ['k[IU]/L', '1'],
  ['m[IU]/mL', '0.001'],
  ['[IU]/L', '0.001'],
  ['[IU]/dL', '0.01'],
])

const reader = UcumLhcUtils.getInstance()

// The library writes to the console and guesses ("we assumed you meant") on texts outside the grammar, and reads a factor 0 as 1.
const GRAMMAR = /^[!-~]{1,60}$/
const FACTOR_ZERO = /(^|[./(])0+(?=[./)]|$)/
const ONLY_ANNOTATION = /^(\{[^}]*\})+$/

// The library looks units up in plain objects and would find `constructor` there.
const WORDS_OF_OBJECTS = Object.getOwnPropertyNames(Object.prototype)

/** True where `code` is a UCUM unit as it stands, without any repair by the library. */
function isUcum(code: string): boolean {
  if (!GRAMMAR.test(code) || FACTOR_ZERO.test(code) || WORDS_OF_OBJECTS.some((word) => code.includes(word))) return false
  const { status, msg } = reader.validateUnitString(code)
  return status === 'valid' && msg.length === 0
}

/** Factor between two UCUM codes; null where their dimensions differ or the scale is no plain multiple (degrees Celsius, pH). */
function plainFactor(from: string, to: string): Decimal | null {
  if (from === to) return decimal(1)
  const [one, two] = [reader.convertUnitTo(from, 1, to).toVal, reader.convertUnitTo(from, 2, to).toVal]
  if (one === null || two === null || !(one > 0) || !Number.isFinite(two)) return null
  if ((one * 2).toPrecision(12) !== two.toPrecision(12)) return null
  return decimal(Number(one.toPrecision(12)))
}

function read(unitText: string, keptUnit: string, bridge: Bridge | null): UnitReading {
  const kept = ucumCodeOf(keptUnit, keptUnit)
  const code = ucumCodeOf(unitText, keptUnit)
  if (code === kept) return { ok: true, factor: decimal(1), ucum: keptUnit }
  if (!isUcum(code)) return { ok: false, reason: 'unit-unknown' }
  // An annotation alone says nothing of the scale: "{cells}" for a percentage would multiply the value by 100.
  if (ONLY_ANNOTATION.test(code) && kept !== '1') return { ok: false, reason: 'unit-dimension' }
  if (kept.includes('[IU]')) {
    const factor = ARBITRARY.get(code)
    return factor === undefined ? { ok: false, reason: 'unit-dimension' } : { ok: true, factor: decimal(factor), ucum: code }
  }
  const direct = plainFactor(code, kept)
  if (direct !== null) return { ok: true, factor: direct, ucum: code }
  const toBridge = bridge === null ? null : plainFactor(code, bridge.from)
  if (bridge === null || toBridge === null) return { ok: false, reason: 'unit-dimension' }
  return { ok: true, factor: toBridge.times(decimal(bridge.factor)), ucum: code }
}

/** The reading, and `unit-unknown` where the library fails on the text. */
function readSafely(unitText: string, keptUnit: string, bridge: Bridge | null): UnitReading {
  try {
    return read(unitText, keptUnit, bridge)
  } catch {
    return { ok: false, reason: 'unit-unknown' }
  }
}

const KEPT_READINGS = 2000
const readings = new Map<string, UnitReading>()

/**
 * Reads a unit by UCUM (case sensitive) after the table of synonyms, and says how it becomes the unit kept. The library's number is rounded to
 * 12 significant digits, so that g/dL to g/L is 10 and not 9.999999999999998. Never throws: a unit that cannot be read or is of another
 * dimension is a reason. Readings are remembered, for a file of 100,000 rows names a handful of units.
 * Source: The Unified Code for Units of Measure, https://ucum.org/ucum (case sensitive codes).
 */
export function unitFactor(unitText: string, keptUnit: string, bridge: Bridge | null = null): UnitReading {
  const key = `${keptUnit}\n${bridge === null ? '' : `${bridge.from} ${bridge.factor}`}\n${unitText}`
  const known = readings.get(key)
  if (known !== undefined) return known
  const reading = readSafely(unitText, keptUnit, bridge)
  if (readings.size >= KEPT_READINGS) readings.clear()
  readings.set(key, reading)
  return reading
}
