import Link from 'next/link'
import type { PatientMergesView } from '../../../lib/usecases/index.ts'
import type { MergeActs } from './acts.ts'
import { MergesInForce } from './MergesInForce.tsx'
import { ProposeMerge } from './ProposeMerge.tsx'
import { Differences } from './SideBySide.tsx'
import './merge.css'

/** Above a patient's page that is made of several records. */
export function MadeOfRecords({ merges: { joined } }: { readonly merges: PatientMergesView }) {
  if (joined.length === 0) return null
  return (
    <p className="notice">
      Read together with {joined.length === 1 ? 'record' : 'records'} <bdi>{joined.map(({ fromId }) => fromId).join(', ')}</bdi>, as one person.{' '}
      <a href="#merges">Why, and what they do not tell alike</a>
    </p>
  )
}

/** The same above a record that is open for reading only. */
export function ReadTogether({ merges: { joined } }: { readonly merges: PatientMergesView }) {
  if (joined.length === 0) return null
  return (
    <p className="notice">
      Read together with {joined.length === 1 ? 'record' : 'records'} <bdi>{joined.map(({ fromId }) => fromId).join(', ')}</bdi>, as one person.
    </p>
  )
}

/** On a patient's page: the records that are read as part of this one, what waits, and the way to propose another. */
export function PatientMerges({ merges, acts }: { readonly merges: PatientMergesView; readonly acts: MergeActs }) {
  const { patientId, joined, waiting, differences } = merges
  return (
    <section className="merges" aria-labelledby="merges">
      <h2 id="merges">Same person as another record</h2>
      {joined.length === 0 && <p className="soft">This record stands for itself.</p>}
      <MergesInForce merges={joined} end={acts.end} />
      {joined.length > 0 && <Differences says={differences} />}
      {waiting.length > 0 && (
        <p className="notice">
          {waiting.map(({ fromId, intoId }) => (fromId === patientId ? intoId : fromId)).join(', ')}: somebody proposed that this is the same person.
          It waits under{' '}
          <Link href="/merges" prefetch={false}>
            Merges
          </Link>{' '}
          for a second person.
        </p>
      )}
      <ProposeMerge patientId={patientId} compare={acts.compare} propose={acts.propose} />
    </section>
  )
}
