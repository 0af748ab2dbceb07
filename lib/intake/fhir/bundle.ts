import type { Bundle } from 'fhir/r4'
import { type RefusedFile, refusedFile } from '../fileBytes.ts'
import { isObject, type Json } from '../json/json.ts'
import { quoted } from '../quoted.ts'
import { textIfAny } from './element.ts'
import type { FhirEntry } from './entry.ts'
import type { Outline } from './outline.ts'

const READ: readonly Bundle['type'][] = ['collection', 'batch', 'transaction', 'searchset']

/** An entry of a Bundle; `source` is the text its places count in. */
export function entryOfBundle(entry: Json, line: number, source: string): FhirEntry {
  const nothing = { line, source: '', fullUrl: '', resource: null }
  if (!isObject(entry)) return { ...nothing, why: 'the entry is no object' }
  const request = entry.members.get('request')
  const method = isObject(request) ? textIfAny(request, 'method') : ''
  const unread = (why: string): FhirEntry => ({ ...nothing, source: source.slice(entry.from, entry.to), why })
  if (method === 'DELETE') return unread('the entry asks to delete, and nothing that came in is deleted')
  if (entry.members.has('modifierExtension')) return unread('the entry has a modifierExtension, which may change what it means')
  const resource = entry.members.get('resource')
  if (!isObject(resource)) return unread('the entry has no resource')
  return { line, source: source.slice(resource.from, resource.to), fullUrl: textIfAny(entry, 'fullUrl'), resource, why: '' }
}

/** Why a Bundle is not read: of another type, under rules that are not known, or without a list of entries. Null where it is read. */
export function bundleFault({ type, names, entry }: Outline, fileName: string): RefusedFile | null {
  const refused = (why: string) => refusedFile('bundle-not-read', `${fileName} is a Bundle ${why}.`)
  if (!READ.some((read) => read === type)) return refused(`of type ${quoted(type)}; ${READ.join(', ')} are read`)
  const rules = ['implicitRules', 'modifierExtension'].find((name) => names.has(name))
  if (rules !== undefined) return refused(`with ${rules}, which may change what it means and is not known here`)
  return entry === 'no list' ? refused('whose entry is no list') : null
}
