import type { Bundle } from 'fhir/r4'
import { type RefusedFile, refusedFile } from '../fileBytes.ts'
import { compactText } from '../json/compactText.ts'
import { isList, isObject, type Json, type JsonObject } from '../json/json.ts'
import { quoted } from '../quoted.ts'
import { textIfAny } from './element.ts'
import type { FhirEntry } from './entry.ts'

const READ: readonly Bundle['type'][] = ['collection', 'batch', 'transaction', 'searchset']

function entryOf(entry: Json, line: number, source: string): FhirEntry {
  const nothing = { line, text: '', fullUrl: '', resource: null }
  if (!isObject(entry)) return { ...nothing, why: 'the entry is no object' }
  const request = entry.members.get('request')
  const method = isObject(request) ? textIfAny(request, 'method') : ''
  const unread = (why: string): FhirEntry => ({ ...nothing, text: compactText(source.slice(entry.from, entry.to)), why })
  if (method === 'DELETE') return unread('the entry asks to delete, and nothing that came in is deleted')
  if (entry.members.has('modifierExtension')) return unread('the entry has a modifierExtension, which may change what it means')
  const resource = entry.members.get('resource')
  if (!isObject(resource)) return unread('the entry has no resource')
  return { line, text: compactText(source.slice(resource.from, resource.to)), fullUrl: textIfAny(entry, 'fullUrl'), resource, why: '' }
}

/** The entries of a Bundle, every one of them, or why it is not read: of another type, or under rules that are not known. */
export function bundleEntries(bundle: JsonObject, source: string, fileName: string): readonly FhirEntry[] | RefusedFile {
  const refused = (why: string) => refusedFile('bundle-not-read', `${fileName} is a Bundle ${why}.`)
  const type = textIfAny(bundle, 'type')
  if (!READ.some((read) => read === type)) return refused(`of type ${quoted(type)}; ${READ.join(', ')} are read`)
  const rules = ['implicitRules', 'modifierExtension'].find((name) => bundle.members.has(name))
  if (rules !== undefined) return refused(`with ${rules}, which may change what it means and is not known here`)
  const entries = bundle.members.has('entry') ? bundle.members.get('entry') : []
  return isList(entries) ? entries.map((entry, at) => entryOf(entry, at + 1, source)) : refused('whose entry is no list')
}
