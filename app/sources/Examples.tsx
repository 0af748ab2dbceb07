import type { SourceView } from '../../lib/usecases/index.ts'

/** Texts a source may send, and what a profile makes of each. */
export function Examples({ examples, of }: { readonly examples: SourceView['examples']; readonly of: string }) {
  return (
    <figure className="source-examples">
      <figcaption className="small soft">{of}</figcaption>
      <ul>
        {examples.map(({ text, says }) => (
          <li key={text}>
            <span className="received">{text}</span> is {says}
          </li>
        ))}
      </ul>
    </figure>
  )
}
