'use client'

/** Opens the browser's own window for printing. Without JavaScript the browser's menu does the same. */
export function PrintNow() {
  return (
    <button className="button" type="button" onClick={() => window.print()}>
      Print
    </button>
  )
}
