import { isDanger } from '../../../lib/review/index.ts'
import type { RuleId } from '../../../lib/rules/index.ts'
import type { AnswerView, CohortAnswerView, CohortFindingView, FindingView } from '../../../lib/usecases/index.ts'
import { words } from '../words.ts'
import { Typed } from './Typed.tsx'
import './work.css'

/** What a correction took back: answered once, it never comes back. */
export const TAKEN_BACK: RuleId = 'reviewed-then-corrected'

type Noted = AnswerView | CohortAnswerView

function Note({ by, on, did, note, takenBack }: Noted) {
  return (
    <>
      by <bdi>{by}</bdi> on {on}
      {did !== null && did !== HANDED && ` (${words(did)})`}
      {note === '' ? (
        '.'
      ) : (
        <>
          : <Typed text={note} />.
        </>
      )}
      {takenBack !== null && (
        <>
          {' '}
          Taken back by <bdi>{takenBack.by}</bdi> on {takenBack.on}.
        </>
      )}
    </>
  )
}

const HANDED: NonNullable<Noted['did']> = 'handed-to-physician'

function called({ did }: Noted, danger: boolean): string {
  if (did === HANDED) return 'Handed to a physician'
  return danger ? 'Noted' : 'Answered before'
}

/** Notes on a danger stay with it; other notes answered evidence that has changed, or their day has passed. */
function EarlierNotes({ notes, danger }: { readonly notes: readonly Noted[]; readonly danger: boolean }) {
  if (notes.length === 0) return null
  return (
    <ul className={danger ? 'on-record' : 'on-record soft'}>
      {notes.map((note, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: the same person may note the same words twice a day, and nothing in here keeps a state
        <li key={`${note.on} ${note.by} ${note.note} ${at}`}>
          <b>{called(note, danger)}</b> <Note {...note} />
        </li>
      ))}
    </ul>
  )
}

function Cause({ attribution }: { readonly attribution: NonNullable<(FindingView | CohortFindingView)['attribution']> }) {
  const { cause, by, on, until, worsePercent } = attribution
  return (
    <p className="on-record">
      <b>Another cause</b> recorded by <bdi>{by}</bdi> on {on}: <Typed text={cause} />. Until {until}; comes back sooner when the value is{' '}
      {worsePercent} % worse.
    </p>
  )
}

/** What people recorded of a finding: the answer that holds, another cause, earlier notes. */
export function FindingRecord({
  finding: { rule, answered, handedOver, attribution, pastAnswers },
}: {
  readonly finding: FindingView | CohortFindingView
}) {
  return (
    <>
      {answered !== null && (
        <p className="on-record">
          <b>Answered</b> <Note {...answered} />{' '}
          {rule === TAKEN_BACK ? 'It does not come back.' : `Comes back on ${answered.bringBackOn} or with new evidence.`}
        </p>
      )}
      {handedOver !== null && (
        <p className="on-record">
          <b>Handed to a physician</b> <Note {...handedOver} /> It stays open until a physician answers it.
        </p>
      )}
      {attribution !== null && <Cause attribution={attribution} />}
      <EarlierNotes notes={pastAnswers} danger={isDanger(rule as RuleId)} />
    </>
  )
}
