'use client'

/** A page that failed. The reference finds the fault in the server's output; nothing of a patient is in it. */
export default function Failed({ error, retry }: { readonly error: Error & { readonly digest?: string }; readonly retry: () => void }) {
  return (
    <section className="narrow">
      <h1>This page failed</h1>
      <p className="notice notice-alert">
        Nothing was changed. The fault is on Lowmark's side{error.digest === undefined ? '' : `; its reference is ${error.digest}`}.
      </p>
      <button className="button" type="button" onClick={() => retry()}>
        Try again
      </button>
    </section>
  )
}
