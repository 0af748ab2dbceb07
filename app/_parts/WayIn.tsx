'use client'

import Link, { useLinkStatus } from 'next/link'
import { usePathname } from 'next/navigation'
import type { ReactNode } from 'react'

function Says({ children }: { readonly children: ReactNode }) {
  const { pending } = useLinkStatus()
  return <span className={pending ? 'pending' : ''}>{children}</span>
}

/** A link of the top line: says which page is open, and that the next one is on its way. */
export function WayIn({ to, children }: { readonly to: string; readonly children: ReactNode }) {
  const path = usePathname()
  const here = path === to || path.startsWith(`${to}/`)
  return (
    <Link href={to} prefetch={false} aria-current={here ? 'page' : undefined}>
      <Says>{children}</Says>
    </Link>
  )
}
