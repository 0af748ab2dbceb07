'use client'

import type { ReactNode, SubmitEvent } from 'react'
import { leaving } from '../underway/leaving.ts'
import { askSession } from './askSession.ts'
import { joinOtherTabs } from './otherTabs.ts'

async function askFirst(event: SubmitEvent<HTMLFormElement>): Promise<void> {
  event.preventDefault()
  const form = event.currentTarget
  if ((await askSession({ alive: true }))?.open !== false) {
    leaving()
    return form.submit()
  }
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
 * A plain form whose words go into an address: it works without JavaScript. With it, the server is asked first whether the session holds, because the
 * sign-in page that would come in its place loses what was typed; where it has ended, the page is covered instead.
 */
export function AskedForm({ className, action, label, children }: Props) {
  return (
    <form className={className} method="get" action={action} aria-label={label} onSubmit={(event) => void askFirst(event)}>
      {children}
    </form>
  )
}
