import { GLOSSARY, type GlossaryEntry } from '../sheet/index.ts'
import type { Call, Outcome } from './call.ts'
import { refusedUnlessMay } from './refuse.ts'

/** The glossary, by term. It is of no patient, and so no entry of the log. */
export async function readGlossary(call: Call): Promise<Outcome<readonly GlossaryEntry[]>> {
  const refused = await refusedUnlessMay(call, 'glossary.read', 'glossary')
  return refused ?? { ok: true, value: GLOSSARY.toSorted((a, b) => a.term.localeCompare(b.term, 'en')) }
}
