import type { ReactNode } from 'react'

/** In place of a list that holds nothing: that it is so, and what to do about it, or what will fill it. An empty place says neither. */
export function EmptySentence({ says, next }: { readonly says: string; readonly next?: ReactNode }) {
  return (
    <p className="empty">
      {says} {next}
    </p>
  )
}
