import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { homeOf } from '../_server/homes.ts'
import { NOT_WORKED } from '../_server/providerFailed.ts'
import { present } from '../_server/session.ts'
import { singleSignOn } from '../_server/singleSignOn.ts'
import { ProviderSignIn } from './ProviderSignIn.tsx'
import { SignInForm } from './SignInForm.tsx'

export const metadata: Metadata = { title: 'Sign in' }

interface Props {
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>
}

export default async function Page({ searchParams }: Props) {
  const person = await present()
  if (person !== null) redirect(homeOf(person))
  const provider = singleSignOn()
  const failed = (await searchParams)['single-sign-on'] === 'failed'
  return (
    <section className="narrow">
      <h1>Sign in</h1>
      {provider !== null && <ProviderSignIn name={provider.name} failed={failed ? NOT_WORKED : null} />}
      <SignInForm />
      <ul className="ways-out soft">
        <li>
          With a one-time code for the first time? <a href="/activate">Choose your password</a>
          {provider !== null && `, or join ${provider.name} there`}.
        </li>
        <li>Lost password: the administrator gives a new one-time code.</li>
        <li>Lost phone: type a recovery code in place of the code, or have the administrator take the second factor away.</li>
      </ul>
    </section>
  )
}
