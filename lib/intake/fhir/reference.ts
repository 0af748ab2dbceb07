import type { JsonObject } from '../json/json.ts'
import { textIfAny } from './element.ts'
import type { FhirEntry } from './entry.ts'

const TYPE_AND_ID = /(?:^|\/)([A-Z][A-Za-z]+)\/([A-Za-z0-9.-]{1,64})(?:\/_history\/[A-Za-z0-9.-]{1,64})?$/

/** The type and id a reference ends in, as `Patient/123`; null where it has none (`urn:uuid:...`, `#p`). */
export function typeAndId(reference: string): { readonly type: string; readonly id: string } | null {
  const [, type, id] = TYPE_AND_ID.exec(reference) ?? []
  return type === undefined || id === undefined ? null : { type, id }
}

const isAddress = (url: string): boolean => /^https?:/i.test(url)

export const withoutVersion = (url: string): string => url.replace(/\/_history\/[^/]*$/, '')

/** What a reference may call a resource by: its full URL without version, and its type and id. Null where it has none. */
export function namesOf({ fullUrl, resource }: FhirEntry): { readonly url: string | null; readonly typeId: string | null } {
  const id = textIfAny(resource, 'id')
  return { url: fullUrl === '' ? null : withoutVersion(fullUrl), typeId: id === '' ? null : `${textIfAny(resource, 'resourceType')}/${id}` }
}

/** Whether a reference and a full URL are not at two different addresses. */
export function mayBeAt(reference: string, fullUrl: string): boolean {
  return !isAddress(reference) || !isAddress(fullUrl)
}

/** Whether `reference` of a resource means this one, contained in it. */
export function meansContained(reference: string, contained: JsonObject): boolean {
  return reference !== '#' && reference.startsWith('#') && textIfAny(contained, 'id') === reference.slice(1)
}
