import { useSyncExternalStore } from 'react'

function subscribe(changed: () => void): () => void {
  const print = window.matchMedia('print')
  print.addEventListener('change', changed)
  return () => print.removeEventListener('change', changed)
}

/** True while the page is laid out for paper. */
export function usePrinting(): boolean {
  return useSyncExternalStore(
    subscribe,
    () => window.matchMedia('print').matches,
    () => false,
  )
}

const never = () => () => {}

/** False in what the server sends and true in a browser that runs scripts. */
export function useInBrowser(): boolean {
  return useSyncExternalStore(
    never,
    () => true,
    () => false,
  )
}
