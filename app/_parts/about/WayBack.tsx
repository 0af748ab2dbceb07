import Link from 'next/link'
import type { ReactNode } from 'react'

/** The line above a page's heading: the way back to the list of all, and where this one stands in it. */
export function WayBack({ children }: { readonly children: ReactNode }) {
  return (
    <p className="small soft">
      <Link href="/rules" prefetch={false}>
        Rules and models
      </Link>
      : {children}
    </p>
  )
}
