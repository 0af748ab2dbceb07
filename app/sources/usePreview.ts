import { useEffect, useState } from 'react'
import type { SourcePreview } from '../../lib/usecases/index.ts'
import { previewSourceProfile } from '../_server/sourceActs.ts'

const PAUSE_MS = 300

/**
 * What is typed, worked out by the functions that read rows, a moment after the last key; `unchanged` is what came with the page for what stands there
 * at first. Null until it was worked out, and where it could not be.
 */
export function usePreview(profile: string, unchanged: SourcePreview): SourcePreview | null {
  const [first] = useState({ of: profile, preview: unchanged })
  const [later, setLater] = useState(first)
  const shown = [first, later].find((one) => one.of === profile)
  const isKnown = shown !== undefined
  useEffect(() => {
    if (isKnown) return
    let isLatest = true
    const timer = setTimeout(async () => {
      const form = new FormData()
      form.set('profile', profile)
      const outcome = await previewSourceProfile(form).catch(() => null)
      if (isLatest && outcome?.ok === true) setLater({ of: profile, preview: outcome.value })
    }, PAUSE_MS)
    return () => {
      isLatest = false
      clearTimeout(timer)
    }
  }, [profile, isKnown])
  return shown?.preview ?? null
}
