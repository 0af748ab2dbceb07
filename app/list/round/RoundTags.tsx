import { WINDOWS, type Window } from '../../../lib/rules/index.ts'
import type { RowOfRound } from '../../../lib/usecases/index.ts'
import { counted, WINDOW_WORDS } from '../../_parts/words.ts'

const BACK = {
  day: 'came back: its day was reached',
  evidence: 'came back: new evidence since it was answered',
  corrected: 'came back: corrected since it was answered',
} as const

function newsTags({ since }: RowOfRound, window: Window): string[] {
  if (since === null) return []
  const { isNew, back, windowThen } = since
  const sooner = windowThen !== null && WINDOWS.indexOf(window) < WINDOWS.indexOf(windowThen)
  const from = windowThen === null ? '' : WINDOW_WORDS[windowThen].toLowerCase()
  return [
    ...(isNew ? [windowThen === null ? 'new: not followed at the last round' : 'new'] : []),
    ...(sooner ? [`sooner than at the last round: ${from} → ${WINDOW_WORDS[window].toLowerCase()}`] : []),
    ...back.map((because) => BACK[because]),
  ]
}

/** What is another than at the end of the last round, one tag each. */
export function RoundTags({ round, window }: { readonly round: RowOfRound | undefined; readonly window: Window }) {
  const tags = round === undefined ? [] : newsTags(round, window)
  if (tags.length === 0) return null
  return (
    <div className="tags">
      {tags.map((tag) => (
        <span className="tag tag-round" key={tag}>
          {tag}
        </span>
      ))}
    </div>
  )
}

/** Who has the patient. */
export function AssignedTag({ round }: { readonly round: RowOfRound | undefined }) {
  if (!round || round.assigned.to === null) return null
  const { to, isYou, disabled } = round.assigned
  return (
    <div className="tags">
      <span className="tag tag-round">
        {isYou ? (
          'yours'
        ) : (
          <>
            <bdi>{to}</bdi> has this patient
          </>
        )}
        {disabled && ' (account disabled)'}
      </span>
    </div>
  )
}

/** Since when the longest waiting of the open findings has been on the list. */
export function OnList({ round }: { readonly round: RowOfRound | undefined }) {
  if (!round || round.seenOn === null || round.daysOnList === null) return null
  return <div className="small soft on-list">on the list {counted(round.daysOnList, 'day')}</div>
}
