import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { HOME } from '../_server/homes.ts'
import { signedIn } from '../_server/session.ts'
import { SignInForm } from './SignInForm.tsx'

export const metadata: Metadata = { title: 'Sign in' }

export default async function Page() {
  const person = await signedIn()
  if (person !== null) redirect(HOME[person.role])
  return (
    <section className="narrow">
      <h1>Sign in</h1>
      <SignInForm />
      <p className="soft">
        With a one-time code for the first time? <a href="/activate">Choose your password</a>. A lost password: the administrator gives a new code.
      </p>
    </section>
  )
}
