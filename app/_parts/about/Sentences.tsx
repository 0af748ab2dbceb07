/** A list of sentences or phrases, one line each. */
export function Sentences({ says }: { readonly says: readonly string[] }) {
  return (
    <ul className="plain-list">
      {says.map((sentence) => (
        <li key={sentence}>{sentence}</li>
      ))}
    </ul>
  )
}
