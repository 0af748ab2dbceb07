import { isList, isObject, type Json } from '../json/json.ts'

/** The first modifierExtension or implicitRules anywhere in a resource, those it contains too; null where it has none. None is known here. */
export function changedMeaning(value: Json): 'modifierExtension' | 'implicitRules' | null {
  if (isList(value)) {
    for (const one of value) {
      const found = changedMeaning(one)
      if (found !== null) return found
    }
    return null
  }
  if (!isObject(value)) return null
  if (value.members.has('modifierExtension')) return 'modifierExtension'
  if (value.members.has('implicitRules')) return 'implicitRules'
  return changedMeaning([...value.members.values()])
}
