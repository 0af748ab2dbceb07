const POWER = /(?<=^|[\d ])10\*(\d+)\//g

/** A text with units in it as a person reads them: a power of ten is written `0.45 x 10^9/L`, where UCUM has `0.45 10*9/L`. */
export function unitWords(text: string): string {
  return text.replace(POWER, 'x 10^$1/')
}
