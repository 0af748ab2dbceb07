'use client'

/** The time of day at this place, as a clock on the wall shows it. */
function clock(at: number): string {
  return new Date(at).toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' })
}

interface Props {
  readonly why: 'idle' | 'longest'
  /** Milliseconds since 1970. */
  readonly endsAt: number
  readonly onStay: () => void
}

/** Says that the session is about to end. Takes no focus: whoever is typing goes on typing, and that alone keeps it. */
export function EndsSoon({ why, endsAt, onStay }: Props) {
  return (
    <div className="session-soon no-print">
      <p role="status">
        {why === 'idle' ? (
          <>
            <strong>You will be signed out at {clock(endsAt)}</strong>, because nothing was done here for a while. Any key, click or scrolling keeps
            you signed in.
          </>
        ) : (
          <>
            <strong>You will be signed out at {clock(endsAt)}</strong>, 12 hours after signing in. This cannot be put off: send what you have typed.
            What is not sent stays in this page until you have signed in again.
          </>
        )}
      </p>
      {why === 'idle' && (
        <button className="button" type="button" onClick={onStay}>
          Stay signed in
        </button>
      )}
    </div>
  )
}
