import type { Reader, StoredSheet } from '../../store/index.ts'
import { sheetOfStored, sheetSha256 } from './draft.ts'

/** A sheet of this patient by its number; null for one of nobody and for another patient's, which are answered alike. */
export function sheetOfPatient(reader: Pick<Reader, 'sheet' | 'keptId'>, patientId: string, sheetId: number): StoredSheet | null {
  const stored = reader.sheet(sheetId)
  return stored !== null && reader.keptId(stored.patientId) === reader.keptId(patientId) ? stored : null
}

/** Is a stored sheet still what was released? */
export function isWhole(stored: StoredSheet): boolean {
  return sheetSha256(sheetOfStored(stored)) === stored.contentSha256
}

/** What is said of a sheet that is none of this patient's. */
export const noSuchSheet = (sheetId: number): string => `This patient has no sheet with the number ${sheetId}.`
