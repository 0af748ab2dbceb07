import type { Metadata } from 'next'
import { OwnSessions } from './OwnSessions.tsx'

export const metadata: Metadata = { title: 'Your account' }

export default function Page() {
  return (
    <>
      <h1>Your account</h1>
      <OwnSessions />
    </>
  )
}
