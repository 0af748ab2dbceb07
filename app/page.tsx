import { redirect } from 'next/navigation'
import { HOME } from './_server/homes.ts'
import { signedIn } from './_server/session.ts'

/** Leads each role to where its day begins. */
export default async function Page() {
  const person = await signedIn()
  redirect(person === null ? '/sign-in' : HOME[person.role])
}
