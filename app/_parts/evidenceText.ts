import { unitWords } from '../../lib/units/inBrowser.ts'

interface Shown {
  readonly comparator: string | null
  readonly value: string
  readonly unit: string
}

/** A value a finding rests on as it is read: `<1 g/L`, or words alone, which have no unit. */
export function evidenceText({ comparator, value, unit }: Shown): string {
  return `${comparator ?? ''}${value}${/^\d/.test(value) ? ` ${unitWords(unit)}` : ''}`.trimEnd()
}
