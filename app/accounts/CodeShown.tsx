import { instantText } from '../_parts/words.ts'

/** A one-time code, shown this once. */
export function CodeShown({ code, expiresAt }: { readonly code: string; readonly expiresAt: string }) {
  return (
    <>
      One-time code, shown this once: <span className="code">{code}</span> Good until {instantText(expiresAt)}. The person uses it at /activate.
    </>
  )
}
