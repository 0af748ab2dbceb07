'use client'

import { usePathname, useSearchParams } from 'next/navigation'
import { useEffect, useRef } from 'react'

/**
 * After a link the focus stands at the heading of the new page, as it would after a whole page had loaded: whoever hears the page hears where they are, and
 * the keyboard goes on from there. A page that has put the focus somewhere itself keeps it there; so does the same page with another question in its address.
 */
export function ArriveAtHeading() {
  const path = usePathname()
  const question = useSearchParams().toString()
  const before = useRef<string | null>(null)
  // biome-ignore lint/correctness/useExhaustiveDependencies: another question is another arrival, though nothing of it is read.
  useEffect(() => {
    const isFirst = before.current === null
    const isOther = before.current !== path
    before.current = path
    if (isFirst) return
    const page = document.getElementById('page')
    const at = document.activeElement
    const isLost = at === null || at === document.body
    if (!isLost && (!isOther || page?.contains(at))) return
    const heading = page?.querySelector('h1')
    if (!(heading instanceof HTMLElement)) return
    heading.tabIndex = -1
    heading.focus({ preventScroll: true })
  }, [path, question])
  return null
}
