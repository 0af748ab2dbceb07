'use client'

import { usePathname } from 'next/navigation'
import { useEffect, useRef, useState } from 'react'
import { Cover } from './Cover.tsx'
import { EndsSoon } from './EndsSoon.tsx'
import type { Standing } from './standing.ts'
import { type Person, type Watch, watchSession } from './watchSession.ts'

/** Replaced and not reloaded: a browser fills a form again when its page is reloaded, and what was typed is another person's. */
function startAfresh(): void {
  window.location.replace('/')
}

/** Warns before the session of this page ends, and covers the page once it has. The server refuses by itself; this is so that nothing typed is lost. */
export function SessionWatch({ name, role }: Person) {
  const [standing, setStanding] = useState<Standing>({ kind: 'open' })
  const watch = useRef<Watch>(null)
  // Whoever has signed out stands before the sign-in page, with the frame of before around it.
  const isOut = usePathname() === '/sign-in'
  useEffect(() => {
    if (isOut) return
    watch.current = watchSession({ name, role }, setStanding, startAfresh)
    return () => watch.current?.stop()
  }, [name, role, isOut])
  if (isOut || standing.kind === 'open') return null
  if (standing.kind === 'ended') return <Cover />
  return <EndsSoon why={standing.why} endsAt={standing.endsAt} onStay={() => watch.current?.stay()} />
}
