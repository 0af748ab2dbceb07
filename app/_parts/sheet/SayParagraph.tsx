/** Sentences as one paragraph; nothing where there are none. */
export function SayParagraph({ says, strong = false }: { readonly says: readonly string[]; readonly strong?: boolean }) {
  if (says.length === 0) return null
  return <p className={strong ? 'sheet-change' : undefined}>{says.join(' ')}</p>
}
