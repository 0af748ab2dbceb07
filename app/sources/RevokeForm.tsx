'use client'

import { Disclosed } from '../_parts/Disclosed.tsx'
import { Told } from '../_parts/Told.tsx'
import { TypedField } from '../_parts/TypedField.tsx'
import { useKeptForm } from '../_parts/useKeptForm.ts'
import { revokeSourceMapping } from '../_server/heldActs.ts'

interface Props {
  readonly mappingId: number
  /** How many rows of how many patients it takes back. */
  readonly filed: string
  /** Whether it is revoked, and an interruption left rows to take back. */
  readonly left: boolean
  /** Whether nothing is left to take back: then only what was done is told. */
  readonly isDone: boolean
}

/** Revokes a mapping, with the reason and with what that takes back. */
export function RevokeForm({ mappingId, filed, left, isDone }: Props) {
  const form = useKeptForm(revokeSourceMapping)
  const says = left ? 'Take the rest back' : 'Revoke'
  return (
    <>
      {!isDone && (
        <Disclosed form={form} says={says} to={`mapping ${mappingId}`} button={`${says}: ${filed}`} about={{ mappingId: String(mappingId) }}>
          <p>{filed} filed with it count no longer and wait for a person again.</p>
          <TypedField says="Why (kept)" name="reason" value={form.typed('reason')} />
        </Disclosed>
      )}
      <Told outcome={form.outcome}>{form.outcome?.ok && form.outcome.value.sentence}</Told>
    </>
  )
}
