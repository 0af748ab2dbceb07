'use client'

import { useId } from 'react'

interface Props {
  readonly source: string | null
  readonly notRemembered: string | null
  /** What was chosen where that was refused. */
  readonly chosen: boolean
}

/** Whether later files of the source are read so too; or why that cannot be. */
export function Remember({ source, notRemembered, chosen }: Props) {
  const id = useId()
  if (notRemembered !== null) return <p className="small soft">{notRemembered}</p>
  return (
    <p>
      <input type="checkbox" id={id} name="remember" defaultChecked={chosen} />{' '}
      <label htmlFor={id}>
        Remember it for later files of <bdi>{source}</bdi>, until somebody revokes it
      </label>
    </p>
  )
}
