import { useEffect, useState } from 'react'
import type { Renewal } from '../../../lib/usecases/index.ts'
import { askRenewal } from './askRenewal.ts'

const EVERY_MS = 1500

/** While somebody waits: how far the answers of today are, asked again and again; null where that is not what is waited for. */
export function useRenewal(waits: boolean): Renewal | null {
  const [renewal, setRenewal] = useState<Renewal | null>(null)
  useEffect(() => {
    if (!waits) return
    let over = false
    let timer: ReturnType<typeof setTimeout> | undefined
    const ask = async (): Promise<void> => {
      const answer = await askRenewal()
      if (over) return
      setRenewal(answer)
      timer = setTimeout(() => void ask(), EVERY_MS)
    }
    void ask()
    return () => {
      over = true
      clearTimeout(timer)
      setRenewal(null)
    }
  }, [waits])
  return renewal
}
