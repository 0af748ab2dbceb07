import type { Outcome } from '../../lib/usecases/index.ts'

type Refusal = Extract<Outcome<never>, { ok: false }>

const HEADINGS: Readonly<Record<Refusal['kind'], string>> = {
  'not-allowed': 'Not allowed',
  'not-found': 'Not found',
  invalid: 'This cannot be shown',
  unavailable: 'Not available now',
}

const NEXT: Readonly<Record<Refusal['kind'], string>> = {
  'not-allowed': 'The refusal is in the log. If your work needs this page, ask the administrator for a role that includes it.',
  'not-found': 'Check the address, or go back to where you came from.',
  invalid: 'Go back and correct what the sentence above names.',
  unavailable: 'Nothing was shown and nothing was changed. Try again in a minute; tell the administrator if it stays.',
}

/** What stands in place of a page that is refused: the reason, and what to do about it. */
export function NotShown({ refusal }: { readonly refusal: Refusal }) {
  return (
    <section className="narrow">
      <h1>{HEADINGS[refusal.kind]}</h1>
      <p className="notice notice-alert">{refusal.reason}</p>
      <p>{NEXT[refusal.kind]}</p>
    </section>
  )
}
