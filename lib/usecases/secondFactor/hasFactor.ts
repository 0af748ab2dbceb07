import type { Reader } from '../../store/index.ts'

/** Whether an account has a second factor now; false where it was turned off or taken away. */
export function hasFactor(reader: Pick<Reader, 'secondFactor'>, accountId: number): boolean {
  return (reader.secondFactor(accountId)?.sealed ?? null) !== null
}
