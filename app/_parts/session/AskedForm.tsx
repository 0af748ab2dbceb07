'use client'

import { useRouter } from 'next/navigation'
import type { ReactNode, SubmitEvent } from 'react'
import { askSession } from './askSession.ts'
import { joinOtherTabs } from './otherTabs.ts'

/** Where the browser would take the form; what was left empty asks for nothing and does not stand in the address. */
function addressOf(form: HTMLFormElement): string {
  const to = new URL(form.action)
  const asked = new URLSearchParams()
  for (const [name, value] of new FormData(form)) if (typeof value === 'string' && value !== '') asked.append(name, value)
  const question = asked.toString()
  return `${to.pathname}${question === '' ? '' : `?${question}`}${to.hash}`
}

async function askFirst(event: SubmitEvent<HTMLFormElement>, follow: (address: string) => void): Promise<void> {
  event.preventDefault()
  const form = event.currentTarget
  if ((await askSession({ alive: true }))?.open !== false) return follow(addressOf(form))
  const tabs = joinOtherTabs(() => undefined)
  tabs.tell()
  tabs.close()
}

interface Props {
  readonly className: string
  readonly action: string
  readonly label: string
  readonly children: ReactNode
}

/**
 * A plain form whose words go into an address: it works without JavaScript. With it, the answer comes into this page, which is sooner there than
 * a whole new one; and the server is asked first whether the session holds, because the sign-in page that would come in its place loses what was typed:
 * where it has ended, the page is covered instead.
 */
export function AskedForm({ className, action, label, children }: Props) {
  const router = useRouter()
  return (
    <form
      className={className}
      method="get"
      action={action}
      aria-label={label}
      onSubmit={(event) => void askFirst(event, (address) => router.push(address))}
    >
      {children}
    </form>
  )
}
