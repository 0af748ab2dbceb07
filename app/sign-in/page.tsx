import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { HOME } from '../_server/homes.ts'
import { NOT_WORKED } from '../_server/providerFailed.ts'
import { signedIn } from '../_server/session.ts'
import { singleSignOn } from '../_server/singleSignOn.ts'
import { ProviderSignIn } from './ProviderSignIn.tsx'
import { SignInForm } from './SignInForm.tsx'

export const metadata: Metadata = { title: 'Sign in' }

interface Props {
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>
}

export default async function Page({ searchParams }: Props) {
  const person = await signedIn()
  if (person !== null) redirect(HOME[person.role])
  const provider = singleSignOn()
  const failed = (await searchParams)['single-sign-on'] === 'failed'
  return (
    <section className="narrow">
      <h1>Sign in</h1>
      {provider !== null && <ProviderSignIn name={provider.name} failed={failed ? NOT_WORKED : null} />}
      <SignInForm />
      <p className="soft">
        With a one-time code for the first time? <a href="/activate">Choose your password</a>
        {provider !== null && `, or join ${provider.name} there`}. A lost password: the administrator gives a new code.
      </p>
    </section>
  )
}
