import type { Metadata } from 'next'
import Link from 'next/link'
import { z } from 'zod'
import { may } from '../../lib/access/index.ts'
import { NotShown } from '../_parts/NotShown.tsx'
import { counted } from '../_parts/words.ts'
import { askTheLog } from '../_server/logActs.ts'
import { logChoicesPart, logPage } from '../_server/pages.ts'
import { signedIn } from '../_server/session.ts'
import { AskLog } from './AskLog.tsx'
import { Export } from './Export.tsx'
import { LogRows } from './LogRows.tsx'
import { Waiting } from './Waiting.tsx'

export const metadata: Metadata = { title: 'Log' }

const BEFORE = z.coerce.number().int().min(1).max(Number.MAX_SAFE_INTEGER).nullable().catch(null)

interface Props {
  readonly searchParams: Promise<{ readonly before?: string }>
}

/** Who did what: own entries, or everyone's for quality and administrator, who can ask it too. Reading it is an entry too. */
export default async function Page({ searchParams }: Props) {
  const before = BEFORE.parse((await searchParams).before ?? null)
  const outcome = await logPage(before)
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const { rows, total, next, scope } = outcome.value
  const role = (await signedIn())?.role ?? null
  const choices = scope === 'all' ? await logChoicesPart() : null
  return (
    <>
      <h1>{scope === 'all' ? 'Log' : 'Your entries in the log'}</h1>
      {scope === 'all' && <Waiting acknowledges={may(role, 'emergency.acknowledge').allowed} />}
      <p className="soft">
        Entries are never changed, and none younger than six years is removed; each carries the hash of the one before it. This look is an entry as
        well, and so is every question.{role === 'quality' && ' Patients are told by pseudonym.'}
      </p>
      {scope === 'all' && <Export />}
      {choices?.ok && <AskLog ask={askTheLog} {...choices.value} patientBy={role === 'quality' ? 'Pseudonym' : 'Patient number'} />}
      <section aria-labelledby="entries">
        <h2 id="entries">Latest entries</h2>
        <p className="soft">{counted(total, 'entry', 'entries')} in all.</p>
        <LogRows rows={rows} />
        <nav className="turn" aria-label="Pages of the log">
          {before !== null && (
            <Link href="/log" prefetch={false}>
              Latest entries
            </Link>
          )}
          {next !== null && (
            <Link href={`/log?before=${next}`} prefetch={false}>
              Earlier entries
            </Link>
          )}
        </nav>
      </section>
    </>
  )
}
