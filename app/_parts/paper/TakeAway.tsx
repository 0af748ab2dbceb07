import Link from 'next/link'
import './paper.css'

/** The ways to a patient's summary for a letter: on paper, and as a file for another program. */
export function TakeAway({ address }: { readonly address: string }) {
  return (
    <form className="exports no-print" id="take-away" action={`/patients/${address}/summary`} method="post">
      <Link className="button button-quiet" href={`/patients/${address}/print`} prefetch={false}>
        Print summary
      </Link>
      <button className="button button-quiet" type="submit">
        Summary as FHIR
      </button>
      <span className="small soft">With name and values; the log keeps who took it.</span>
    </form>
  )
}
