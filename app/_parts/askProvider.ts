import { getCsrfToken } from 'next-auth/react'

/** Sends the browser to the clinic's identity provider. Returns a sentence where that cannot be done; nothing once it is on its way. */
export async function askProvider(fields: Readonly<Record<string, string>>): Promise<string | null> {
  const csrfToken = (await getCsrfToken()) ?? ''
  const answer = await fetch('/api/auth/signin/openid', { method: 'POST', body: new URLSearchParams({ ...fields, csrfToken }) })
  const { url, says } = (await answer.json()) as { url?: string; says?: string }
  if (url === undefined) return says ?? NO_ANSWER
  window.location.assign(url)
  return null
}

export const NO_ANSWER = 'No answer came. Try again.'
