import type { PlanPage, ProposalView } from '../../lib/usecases/index.ts'
import { EmptySentence } from '../_parts/EmptySentence.tsx'
import { instantText } from '../_parts/words.ts'
import { DecideForm } from './DecideForm.tsx'
import { Differences } from './Differences.tsx'
import { WithdrawForm } from './WithdrawForm.tsx'

function Proposal({ one, page }: { readonly one: ProposalView; readonly page: Pick<PlanPage, 'publishing' | 'form'> }) {
  const { version, basedOn, state, from, note, proposedBy, proposedAt, decidedBy, decidedAt, decisionReason, differences, own, notToPublish } = one
  return (
    <article className="held-row" aria-labelledby={`proposal-${version}`}>
      <h3 id={`proposal-${version}`}>
        Version {version}, {state}
        {state === 'proposed' && `, to begin on ${from}`}
      </h3>
      <p>
        <bdi>{note}</bdi>
      </p>
      <p className="small soft">
        Proposed by <bdi>{proposedBy}</bdi>, {instantText(proposedAt)}, drawn from version {basedOn}
        {decidedBy !== null && decidedAt !== null && (
          <>
            ; {state} by <bdi>{decidedBy}</bdi>, {instantText(decidedAt)}
          </>
        )}
      </p>
      {decisionReason !== null && (
        <p>
          Refused because: <bdi>{decisionReason}</bdi>
        </p>
      )}
      <Differences differences={differences} of={`What version ${version} ${state === 'proposed' ? 'would change' : 'would have changed'}`} />
      {state === 'proposed' && page.publishing !== null && (
        <DecideForm version={version} wished={from} publishing={page.publishing} notToPublish={notToPublish} />
      )}
      {state === 'proposed' && page.form !== null && own && <WithdrawForm version={version} />}
    </article>
  )
}

/** Proposals that wait for an administrator, and those that were refused or withdrawn. */
export function Proposals({ page }: { readonly page: PlanPage }) {
  if (page.proposals === null) return null
  const waiting = page.proposals.filter(({ state }) => state === 'proposed')
  const decided = page.proposals.filter(({ state }) => state !== 'proposed')
  return (
    <section aria-labelledby="proposals">
      <h2 id="proposals">Proposals</h2>
      {waiting.length === 0 && <EmptySentence says="None waits." next="A physician proposes a change on this page." />}
      <div className="held">
        {waiting.map((one) => (
          <Proposal key={one.version} one={one} page={page} />
        ))}
      </div>
      {decided.length > 0 && (
        <details>
          <summary>{decided.length} refused or withdrawn</summary>
          <div className="held">
            {decided.map((one) => (
              <Proposal key={one.version} one={one} page={page} />
            ))}
          </div>
        </details>
      )}
    </section>
  )
}
