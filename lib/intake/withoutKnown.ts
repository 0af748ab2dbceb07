/** Where a sentence tells what is known of the patient beyond the row: birth date, sex, and the day of death (sentences.ts). */
const KNOWN = /(the one known of this patient|the patient's birth|the patient's death), [^;]*;/g

/** A sentence about a row for a reader who may see the row and not the patient: without what is known of the patient. */
export function withoutKnown(sentence: string): string {
  return sentence.replace(KNOWN, '$1;')
}
