import type { Analyte } from '../results/index.ts'
import { type Decimal, decimal, type Interval } from '../units/index.ts'

/** The least and the greatest value an analyte can have in a living person, in the unit kept; both included. */
export interface ValueRange {
  readonly least: Decimal
  readonly greatest: Decimal
}

const range = (least: string, greatest: string): ValueRange => ({ least: decimal(least), greatest: decimal(greatest) })

/**
 * Far wider than any reference interval: a value outside is a slip of unit, point or analyte. The upper ends of serum M-protein and haemoglobin are
 * those the specification names; every other number is (ours).
 */
const RANGE_OF: Readonly<Record<Analyte, ValueRange | null>> = {
  'serum-m-protein': range('0', '150'),
  'urine-m-protein': range('0', '100000'),
  'kappa-flc': range('0', '200000'),
  'lambda-flc': range('0', '200000'),
  'flc-ratio': range('0', '1000000'),
  igg: range('0', '150'),
  iga: range('0', '150'),
  igm: range('0', '150'),
  igd: range('0', '100000'),
  ige: range('0', '50000000'),
  haemoglobin: range('10', '250'),
  'white-cells': range('0', '1500'),
  neutrophils: range('0', '1000'),
  platelets: range('0', '10000'),
  calcium: range('0.5', '7.5'),
  'ionised-calcium': range('0.2', '5'),
  albumin: range('3', '80'),
  'total-protein': range('10', '220'),
  creatinine: range('5', '5000'),
  'b2-microglobulin': range('0', '500'),
  ldh: range('0', '100000'),
  'alkaline-phosphatase': range('0', '50000'),
  'marrow-plasma-cells': range('0', '100'),
  'circulating-plasma-cells': range('0', '100'),
  'serum-immunofixation': null,
  'urine-immunofixation': null,
}

/** A patient's weight in kg (ours). */
export const WEIGHT_RANGE: ValueRange = range('1', '500')

/** What the analyte can be, in the unit kept; null where it has no number. */
export function valueRange(analyte: Analyte): ValueRange | null {
  return RANGE_OF[analyte]
}

/** Whether the number a report prints lies inside: `<1` prints 1 and `>5000` prints 5000; a number with a comparator has no least value to keep to. */
export function isInside({ least, greatest }: ValueRange, of: Interval, comparator: string | null): boolean {
  const printed = comparator?.startsWith('<') === true ? (of.high ?? of.low) : of.low
  return printed.lte(greatest) && (comparator !== null || printed.gte(least))
}
