'use client'

import { useEffect } from 'react'
import { joinOtherTabs } from './otherTabs.ts'

/** On a page that nobody is signed in to: the other tabs of this browser find out now, and not in a minute, that the session they show has ended. */
export function TellOtherTabs() {
  useEffect(() => {
    const tabs = joinOtherTabs(() => undefined)
    tabs.tell()
    tabs.close()
  }, [])
  return null
}
