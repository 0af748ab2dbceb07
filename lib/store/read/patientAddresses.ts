import type { Connection } from '../connection.ts'

/** What stands for a patient in the address of a page: 32 hexadecimal digits drawn by chance. Throws where nobody has this id. */
export function patientAddressOf({ statement }: Connection, patientId: string): string {
  const row = statement<{ address: string }>('SELECT address FROM patient_address WHERE patient_id = ?').get(patientId)
  if (row === undefined) throw new Error('There is no such patient, and so no address.')
  return row.address
}

/** The id of the patient an address stands for; null where it stands for nobody. */
export function patientIdAt({ statement }: Connection, address: string): string | null {
  return statement<{ id: string }>('SELECT patient_id AS id FROM patient_address WHERE address = ?').get(address)?.id ?? null
}
