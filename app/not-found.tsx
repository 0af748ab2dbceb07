import type { Metadata } from 'next'

export const metadata: Metadata = { title: 'Not found' }

/** An address that leads nowhere. */
export default function NotFound() {
  return (
    <section className="narrow">
      <h1>Not found</h1>
      <p className="notice">There is no page at this address. It may be mistyped, or what it led to may be gone.</p>
      <p>
        <a href="/">Back to where your day begins</a>
      </p>
    </section>
  )
}
