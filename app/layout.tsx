import type { Metadata, Viewport } from 'next'
import Link from 'next/link'
import type { ReactNode } from 'react'
import { may } from '../lib/access/index.ts'
import { SessionWatch } from './_parts/session/SessionWatch.tsx'
import { TellOtherTabs } from './_parts/session/TellOtherTabs.tsx'
import { ArriveAtHeading } from './_parts/underway/ArriveAtHeading.tsx'
import { UnderWay } from './_parts/underway/UnderWay.tsx'
import { WayIn } from './_parts/WayIn.tsx'
import { leave } from './_server/actions.ts'
import { WAYS } from './_server/homes.ts'
import { isInvented } from './_server/invented.ts'
import { lookChosen } from './_server/look.ts'
import { present } from './_server/session.ts'
import './globals.css'

export const metadata: Metadata = { title: { default: 'Lowmark', template: '%s - Lowmark' }, robots: { index: false, follow: false } }
export const viewport: Viewport = { width: 'device-width', initialScale: 1, colorScheme: 'light dark' }
export const dynamic = 'force-dynamic'

/** What stands around every page. */
export default async function Layout({ children }: { readonly children: ReactNode }) {
  const [person, invented, look] = await Promise.all([present(), isInvented(), lookChosen()])
  return (
    <html lang="en" {...(look === null ? {} : { 'data-look': look })}>
      <body>
        {person === null ? <TellOtherTabs /> : <SessionWatch name={person.name} role={person.role} />}
        <a className="skip" href="#page">
          To the page
        </a>
        <UnderWay />
        <ArriveAtHeading />
        <header>
          {invented && (
            <p className="invented">
              <span>Invented data: nobody here is a real person.</span>
            </p>
          )}
          <div className="top">
            <span className="mark">Lowmark</span>
            {person !== null && (
              <>
                <nav aria-label="Pages">
                  <ul className="ways">
                    {WAYS.filter((way) => person.confinement === null && may(person.role, way.needs).allowed).map((way) => (
                      <li key={way.to}>
                        <WayIn to={way.to}>{way.says}</WayIn>
                      </li>
                    ))}
                  </ul>
                </nav>
                <form className="who" action={leave}>
                  <Link href="/account" prefetch={false}>
                    <bdi>{person.name}</bdi>, {person.role}
                    <span className="sr-only">: your account</span>
                  </Link>
                  <button className="button button-quiet" type="submit">
                    Sign out
                  </button>
                </form>
              </>
            )}
          </div>
        </header>
        <main className="page" id="page" tabIndex={-1}>
          {person?.means === 'recovery-code' && (
            <p className="notice notice-alert no-print">
              You signed in with a recovery code, and it will not count again. How many are left, and how to make new ones, stands on{' '}
              <Link href="/account" prefetch={false}>
                your account
              </Link>
              .
            </p>
          )}
          {children}
        </main>
        <footer className="caution">
          Lowmark flags for review. It does not diagnose, attribute or treat; local protocol and the treating physician decide.
        </footer>
      </body>
    </html>
  )
}
