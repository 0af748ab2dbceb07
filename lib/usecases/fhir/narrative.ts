import type { Narrative } from 'fhir/r4'
import { stringOf } from './told.ts'

const ESCAPED: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' }

function escaped(text: string): string {
  return (stringOf(text) ?? '').replace(/[&<>"]/g, (sign) => ESCAPED[sign] ?? sign)
}

/** Paragraphs as the narrative of a resource (XHTML): what whoever cannot read the data reads. */
export function narrative(paragraphs: readonly string[]): Narrative {
  const inside = paragraphs.filter((text) => text.trim() !== '').map((text) => `<p>${escaped(text)}</p>`)
  return { status: 'generated', div: `<div xmlns="http://www.w3.org/1999/xhtml">${inside.join('')}</div>` }
}
