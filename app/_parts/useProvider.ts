'use client'

import { useState } from 'react'
import { askProvider, NO_ANSWER } from './askProvider.ts'

/** A way to the identity provider from a form: what was said instead of going there, whether it is under way, and how to begin. */
export function useProvider(before: string | null) {
  const [said, setSaid] = useState(before)
  const [busy, setBusy] = useState(false)
  async function go(fields: Readonly<Record<string, string>>): Promise<void> {
    setBusy(true)
    setSaid(null)
    const sentence = await askProvider(fields).catch(() => NO_ANSWER)
    // Without a sentence the browser is leaving: the button stays as it is.
    if (sentence === null) return
    setBusy(false)
    setSaid(sentence)
  }
  return { said, busy, go }
}
