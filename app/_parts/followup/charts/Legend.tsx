import type { ReactNode } from 'react'

/** One sign of a picture with its words. */
export interface Sign {
  readonly words: string
  readonly drawn: ReactNode
}

/** How to read a picture: only the signs that occur in it. */
export function Legend({ of, signs }: { readonly of: string; readonly signs: readonly (Sign | null)[] }) {
  return (
    <ul className="audit-legend" aria-label={`How to read "${of}"`}>
      {signs.map(
        (sign) =>
          sign !== null && (
            <li key={sign.words}>
              <svg width="26" height="18" viewBox="-13 -9 26 18" aria-hidden="true">
                {sign.drawn}
              </svg>{' '}
              {sign.words}
            </li>
          ),
      )}
    </ul>
  )
}
