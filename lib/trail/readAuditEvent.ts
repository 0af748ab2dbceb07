import type { AuditEvent, AuditEventEntity } from 'fhir/r4'
import { auditEventOf, OURS } from './auditEvent.ts'
import type { TrailRow } from './row.ts'

/** A line of an exported log: the row it holds, a row told to readers who are not given what the chain needs, or nothing of ours. */
export type ReadEntry =
  | { readonly kind: 'entry'; readonly row: TrailRow; readonly databaseId: string }
  | { readonly kind: 'not-whole' }
  | { readonly kind: 'unreadable' }

const systemOf = ({ what }: AuditEventEntity): string | undefined => what?.identifier?.system
const detailOf = (entity: AuditEventEntity | undefined, type: string): string | null =>
  entity?.detail?.find((one) => one.type === type)?.valueString ?? null

function rowOf(event: AuditEvent): TrailRow {
  const entity = event.entity ?? []
  const entry = entity.find((one) => systemOf(one) === OURS.entry)
  const object = entity.find((one) => systemOf(one) === OURS.object)
  const version = detailOf(object, 'version')
  const agent = event.agent[0]
  return {
    sequence: Number(event.id),
    at: event.recorded,
    actor: agent?.who?.identifier?.value ?? '',
    role: (agent?.role?.[0]?.coding?.[0]?.code ?? 'none') as TrailRow['role'],
    sessionHash: detailOf(entry, 'session'),
    address: agent?.network?.address ?? null,
    action: (entry?.name ?? '') as TrailRow['action'],
    outcome: event.outcome === '0' ? 'success' : 'failure',
    purpose: event.purposeOfEvent?.[0]?.coding?.[0]?.code ?? null,
    patientId: detailOf(entry, 'patient'),
    object: object?.what?.identifier?.value ?? null,
    objectVersion: version === null ? null : Number(version),
    requestId: detailOf(entry, 'request') ?? '',
    beforeHash: detailOf(entry, 'before'),
    afterHash: detailOf(entry, 'after'),
    event: detailOf(entry, 'event') ?? '',
    previousHash: detailOf(entry, 'previousHash') ?? '',
    hash: detailOf(entry, 'hash') ?? '',
  }
}

/**
 * Reads one line of an exported log back. What the chain is not taken over (types, codes, the list of patients) is compared with what the row says
 * it must be, so that no word of the line can be changed unseen.
 */
export function readAuditEvent(line: string): ReadEntry {
  try {
    const event = JSON.parse(line) as AuditEvent
    if (event.resourceType !== 'AuditEvent') return { kind: 'unreadable' }
    if (event.meta?.security !== undefined) return { kind: 'not-whole' }
    const row = rowOf(event)
    const databaseId = event.source.observer.identifier?.value ?? ''
    if (JSON.stringify(auditEventOf(row, { as: 'numbers' }, databaseId)) !== line) return { kind: 'unreadable' }
    return { kind: 'entry', row, databaseId }
  } catch {
    return { kind: 'unreadable' }
  }
}
