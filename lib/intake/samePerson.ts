import type { Patient } from '../results/index.ts'
import { agreedBirth, parseBirthDate } from '../time/index.ts'
import type { Problem } from './reason.ts'
import { field, type RawRow } from './row.ts'
import { problem } from './sentences.ts'

/** Whether the birth date and sex a result came with are those of the patient it names; empty ones say nothing. The problem where they are not. */
export function otherPerson(raw: RawRow, { birthDate, sex }: Patient): Problem | null {
  const [birthText, sexText] = [field(raw, 'birth_date'), field(raw, 'sex')]
  const told = parseBirthDate(birthText)
  if (birthText !== '' && (told === null || agreedBirth(told, birthDate) === null)) {
    return problem('birth-date-differs', { column: 'birth_date', text: birthText, detail: birthDate })
  }
  return sexText === '' || sexText === sex ? null : problem('sex-differs', { column: 'sex', text: sexText, detail: sex })
}
