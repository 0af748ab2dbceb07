'use client'

import Link from 'next/link'
import { useEffect, useRef } from 'react'
import { PLACE_OF_NUMBERS } from '../../_parts/look/HowComputed.tsx'
import { Said } from '../../_parts/Said.tsx'
import type { Wanted } from './AnswerBeside.tsx'
import { useOpened } from './useOpened.ts'
import { Work, type WorkProps } from './Work.tsx'

interface Props extends Omit<WorkProps, 'page' | 'view' | 'again'> {
  readonly address: string
  /** As the list has it, so that it stands there at once. */
  readonly name: string
  readonly wanted: Wanted
  /** False while the reader goes through the list: then it is opened once they stay. */
  readonly now: boolean
  readonly close: () => void
}

/** One patient beside the list. Who it is stands there at once; everything else once the log has it. */
export function Panel({ address, name, now, close, ...work }: Props) {
  const { opened, again } = useOpened(address, now)
  const heading = useRef<HTMLHeadingElement>(null)
  const { wanted } = work
  useEffect(() => {
    if (wanted.focus === 'heading') heading.current?.focus()
  }, [wanted])
  const page = `/patients/${address}`
  const waits = opened.state === 'loading' || opened.state === 'slow'
  return (
    <section className="beside no-print" aria-labelledby="beside-name" aria-busy={waits}>
      <div className="beside-head">
        <h2 id="beside-name" tabIndex={-1} ref={heading}>
          <bdi>{name}</bdi>
        </h2>
        <button className="button button-quiet" type="button" onClick={close} aria-keyshortcuts="Escape">
          <span className="beside-narrow">Back to the list</span>
          <span className="beside-wide">Close</span> <kbd>Esc</kbd>
        </button>
      </div>
      <p>
        <Link href={page} prefetch={false}>
          The whole patient page
        </Link>
        {opened.state === 'open' && (
          <>
            {' '}
            <a className="how-computed" href={`${page}#${PLACE_OF_NUMBERS}`}>
              How its numbers were computed
            </a>
          </>
        )}
      </p>
      {opened.state === 'loading' && <p role="status">Opening …</p>}
      {opened.state === 'slow' && <p role="status">Still opening. The server takes long to answer; it is waited for.</p>}
      {opened.state === 'failed' && (
        <Said outcome={{ ok: false, reason: 'Lowmark could not be reached, so nothing is shown. Try again in a minute.' }} />
      )}
      {opened.state === 'refused' && <Said outcome={{ ok: false, reason: opened.reason }} />}
      {(opened.state === 'failed' || opened.state === 'refused') && (
        <button className="button" type="button" onClick={again}>
          Try again
        </button>
      )}
      {opened.state === 'open' && <Work key={address} page={page} view={opened.view} again={again} {...work} />}
    </section>
  )
}
