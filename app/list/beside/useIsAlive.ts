'use client'

import { useSyncExternalStore } from 'react'

const never = () => () => undefined

/** True once scripts run: what needs them does not stand on a page where nothing would come of it. */
export function useIsAlive(): boolean {
  return useSyncExternalStore(
    never,
    () => true,
    () => false,
  )
}
