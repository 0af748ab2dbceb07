import type { Metadata } from 'next'
import { singleSignOn } from '../_server/singleSignOn.ts'
import { ActivateForm } from './ActivateForm.tsx'
import { JoinForm } from './JoinForm.tsx'

export const metadata: Metadata = { title: 'Choose your password' }

export default function Page() {
  const provider = singleSignOn()
  return (
    <section className="narrow">
      <h1>Choose your password</h1>
      <p className="soft">
        The administrator gave you a one-time code. A password has at least 15 characters; several words in a row are easy to keep in mind. There is
        no rule about signs or capitals, and it does not expire. What is tried first, such as a password of published breaches, is refused with the
        reason.
      </p>
      <ActivateForm />
      {provider !== null && <JoinForm provider={provider.name} />}
    </section>
  )
}
