/** An address that leads nowhere. */
export default function NotFound() {
  return (
    <section className="narrow">
      <h1>Not found</h1>
      <p className="notice">There is no page at this address.</p>
      <p>
        <a href="/">Back to the start</a>
      </p>
    </section>
  )
}
