import { redirect } from 'next/navigation'
import { homeOf } from './_server/homes.ts'
import { present } from './_server/session.ts'

/** Leads each role to where its day begins. */
export default async function Page() {
  const person = await present()
  redirect(person === null ? '/sign-in' : homeOf(person))
}
