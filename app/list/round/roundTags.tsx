import { WINDOW_WORDS } from '../../_parts/words.ts'
import type { Listed } from '../listed.ts'

const BACK = {
  day: 'came back: its day was reached',
  evidence: 'came back: new evidence since it was answered',
  corrected: 'came back: corrected since it was answered',
} as const

function newsSays({ news, soonerThan, window }: Listed): string[] {
  if (news === null) return []
  const { isNew, back, windowThen } = news
  return [
    ...(isNew ? [windowThen === null ? 'new: not followed at the last round' : 'new'] : []),
    ...(soonerThan === null
      ? []
      : [`sooner than at the last round: ${WINDOW_WORDS[soonerThan].toLowerCase()} → ${WINDOW_WORDS[window].toLowerCase()}`]),
    ...back.map((because) => BACK[because]),
  ]
}

/** What is another than at the end of the last round, one tag each. */
export function roundTags(row: Listed) {
  const tags = newsSays(row)
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
export function assignedTag({ has }: Listed) {
  if (has === null) return null
  return (
    <div className="tags">
      <span className="tag tag-round">
        {has.isYou ? (
          'yours'
        ) : (
          <>
            <bdi>{has.name}</bdi> has this patient
          </>
        )}
        {has.disabled && ' (account disabled)'}
      </span>
    </div>
  )
}
