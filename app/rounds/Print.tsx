'use client'

/** Opens the browser's own way to print; without JavaScript its menu does the same. */
export function Print() {
  return (
    <button className="button button-quiet" type="button" onClick={() => window.print()}>
      Print
    </button>
  )
}
