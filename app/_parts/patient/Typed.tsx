/** What a person typed; under pseudonyms, that there is something. */
export function Typed({ text }: { readonly text: string | null }) {
  return text === null ? <span className="soft">a text that is not shown here</span> : <q className="typed">{text}</q>
}
