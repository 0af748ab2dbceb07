import type { Metadata } from 'next'
import Link from 'next/link'
import { redirect } from 'next/navigation'
import { EmptySentence } from '../_parts/EmptySentence.tsx'
import { NotShown } from '../_parts/NotShown.tsx'
import { AskedForm } from '../_parts/session/AskedForm.tsx'
import { TableHead } from '../_parts/TableHead.tsx'
import { instantText } from '../_parts/words.ts'
import { sourcesPage } from '../_server/pages.ts'
import './sources.css'

export const metadata: Metadata = { title: 'Sources' }

/** Who sends results: what is known of each, and how many of its rows wait. */
export default async function Page({ searchParams }: { readonly searchParams: Promise<{ readonly source?: string }> }) {
  const outcome = await sourcesPage()
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const { source: wanted } = await searchParams
  if (typeof wanted === 'string' && wanted.trim() !== '') redirect(`/sources/${encodeURIComponent(wanted.trim())}`)
  return (
    <div className="source">
      <h1>Sources</h1>
      <p className="soft">
        A source is whoever sends results: a laboratory, an interface. What is set here says how it writes what its rows leave unsaid. Of a source
        without a profile nothing is assumed.
      </p>
      {outcome.value.length === 0 ? (
        <EmptySentence says="No file named a source yet." next="Name it where the file is taken in, or open it below by its name." />
      ) : (
        <table className="table stacked">
          <TableHead columns={['Source', 'What is set', 'Since', 'Files', 'Rows', 'Held', 'Waiting now', 'Last received']} />
          <tbody>
            {outcome.value.map(({ source, profile, files, rows, held, waiting, lastReceivedAt }) => (
              <tr key={source}>
                <td>
                  <Link href={`/sources/${encodeURIComponent(source)}`} prefetch={false}>
                    <bdi>{source}</bdi>
                  </Link>
                </td>
                <td data-label="What is set">{profile === null || profile.says.length === 0 ? 'nothing' : profile.says.join('; ')}</td>
                <td data-label="Since">{profile === null ? '-' : `${instantText(profile.since)} (version ${profile.version})`}</td>
                <td data-label="Files">{files}</td>
                <td data-label="Rows">{rows}</td>
                <td data-label="Held">{held}</td>
                <td data-label="Waiting now">{waiting}</td>
                <td data-label="Last received">{lastReceivedAt === null ? '-' : instantText(lastReceivedAt)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <AskedForm className="filters" action="/sources" label="Open another one">
        <div className="field">
          <label htmlFor="other-source">Another source, by the name its files are taken in with</label>
          <input className="input" id="other-source" name="source" maxLength={100} required autoComplete="off" />
        </div>
        <button className="button button-quiet" type="submit">
          Open
        </button>
      </AskedForm>
    </div>
  )
}
