import { Sentences } from './Sentences.tsx'

interface Props {
  readonly cannotSee: readonly string[]
  readonly elseHeading: string
  readonly elseCauses: readonly string[]
}

/** Where a rule or a model is blind, and what else can bring about what it shows. */
export function Blind({ cannotSee, elseHeading, elseCauses }: Props) {
  return (
    <div className="about-columns">
      <section aria-labelledby="cannot-see">
        <h2 id="cannot-see">What it cannot see</h2>
        <Sentences says={cannotSee} />
      </section>
      <section aria-labelledby="else">
        <h2 id="else">{elseHeading}</h2>
        <Sentences says={elseCauses} />
        <p className="small soft">A reminder and no complete list; no advice on treatment.</p>
      </section>
    </div>
  )
}
