import type { Metadata } from 'next'
import { NotShown } from '../../_parts/NotShown.tsx'
import { counted } from '../../_parts/words.ts'
import { sourcePage } from '../../_server/pages.ts'
import { Examples } from '../Examples.tsx'
import { FilesOfSource } from '../FilesOfSource.tsx'
import { Mappings } from '../Mappings.tsx'
import { ProfileVersions } from '../ProfileVersions.tsx'
import { SourceForm } from '../SourceForm.tsx'
import '../sources.css'

export const metadata: Metadata = { title: 'Source' }

/** One source: what is known of it and how that came about, what it makes of some texts, and what came from it. */
export default async function Page({ params }: { readonly params: Promise<{ readonly source: string }> }) {
  const outcome = await sourcePage(decodeURIComponent((await params).source))
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const { source, version, says, examples, versions, files, waiting, unchanged } = outcome.value
  return (
    <div className="source">
      <h1>
        Source <bdi>{source}</bdi>
      </h1>
      <p className="soft">
        {version === null ? 'Nobody wrote a profile of it, so nothing is assumed.' : `Version ${version} of its profile holds.`} A change concerns
        rows read from then on; rows filed before keep what they were read as. What a row says itself is never overruled.
      </p>
      <section aria-labelledby="set">
        <h2 id="set">What is set</h2>
        <dl className="counts">
          {says.map((one) => (
            <div key={one.field}>
              <dt>{one.asks}</dt>
              <dd className="source-says">{one.says}</dd>
            </div>
          ))}
        </dl>
        <Examples examples={examples} of="What this makes of some texts" />
        <p>
          <a href={`/sources/${encodeURIComponent(source)}/file`} download>
            Save it as a file
          </a>
        </p>
      </section>
      {unchanged !== null && (
        <section aria-labelledby="change">
          <h2 id="change">Change it</h2>
          <details className="no-print" open={version === null}>
            <summary>Set it otherwise, try it, save it</summary>
            <SourceForm key={version} view={outcome.value} unchanged={unchanged} />
          </details>
        </section>
      )}
      <Mappings source={source} />
      <section aria-labelledby="files">
        <h2 id="files">Files received lately</h2>
        {waiting > 0 && (
          <p>
            {counted(waiting, 'row')} of this source {waiting === 1 ? 'waits' : 'wait'} for a decision: <a href="/held">held rows</a>. Filing one
            reads it again, by what is known now.
          </p>
        )}
        <FilesOfSource files={files} />
      </section>
      <section aria-labelledby="versions">
        <h2 id="versions">Versions of its profile</h2>
        <ProfileVersions versions={versions} />
      </section>
    </div>
  )
}
