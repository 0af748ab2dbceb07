'use client'

import { Disclosed } from '../Disclosed.tsx'
import { TypedField } from '../TypedField.tsx'
import { type FormAct, useKeptForm } from '../useKeptForm.ts'

interface Props {
  readonly withdraw: FormAct<null>
  readonly patientId: string
  readonly sheetId: number
}

/** Takes a released sheet back, with the reason. */
export function WithdrawForm({ withdraw, patientId, sheetId }: Props) {
  const form = useKeptForm(withdraw)
  return (
    <Disclosed form={form} says="Withdraw this sheet" to={`sheet ${sheetId}`} button="Withdraw it" about={{ patientId, sheetId: String(sheetId) }}>
      <p>It stays to be read here, marked as withdrawn. Paper that was handed out has to be asked back.</p>
      <TypedField says="Why it is withdrawn" name="reason" value={form.typed('reason')} />
    </Disclosed>
  )
}
