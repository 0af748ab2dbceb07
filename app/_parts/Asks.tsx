import type { ReactNode } from 'react'

interface Props {
  /** What can be done, in a word. */
  readonly says: string
  /** To what, for those who hear the page. */
  readonly to: string
  /** What it does and whether it can be undone; then the form that does it. */
  readonly question: ReactNode
  readonly children: ReactNode
}

/** Something that cannot be taken back: it is opened first and done then. A disclosure: nothing to trap the focus, and nothing of it can be sent before it is open. */
export function Asks({ says, to, question, children }: Props) {
  return (
    <details className="asks">
      <summary className="button button-quiet">
        {says}
        <span className="sr-only">: {to}</span>
      </summary>
      <p>{question}</p>
      {children}
    </details>
  )
}
