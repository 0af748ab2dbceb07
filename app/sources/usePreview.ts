import { useEffect, useState } from 'react'
import type { SourcePreview } from '../../lib/usecases/index.ts'
import { previewSourceProfile } from '../_server/sourceActs.ts'

const PAUSE_MS = 300

/** What is typed, worked out by the functions that read rows, a moment after the last key. Null until it was, and where it could not be. */
export function usePreview(profile: string): SourcePreview | null {
  const [shown, setShown] = useState<{ readonly of: string; readonly preview: SourcePreview } | null>(null)
  useEffect(() => {
    let isLatest = true
    const timer = setTimeout(async () => {
      const form = new FormData()
      form.set('profile', profile)
      const outcome = await previewSourceProfile(form).catch(() => null)
      if (isLatest && outcome?.ok === true) setShown({ of: profile, preview: outcome.value })
    }, PAUSE_MS)
    return () => {
      isLatest = false
      clearTimeout(timer)
    }
  }, [profile])
  return shown?.of === profile ? shown.preview : null
}
