'use client'

import { useId } from 'react'
import type { Day } from '../../../lib/time/index.ts'

interface Props {
  /** The first and the last day on which the finding can be brought back. */
  readonly from: Day
  readonly atMost: Day
  readonly value: string
}

/** The day an answered finding comes back on. */
export function BringBack({ from, atMost, value }: Props) {
  const id = useId()
  return (
    <div className="field">
      <label htmlFor={id}>Bring back on</label>
      <input
        className="input day-field"
        id={id}
        name="bringBackOn"
        type="date"
        required
        min={from}
        max={atMost}
        defaultValue={value}
        aria-describedby={`${id}-why`}
      />
      <p className="small soft" id={`${id}-why`}>
        At the latest {atMost}: never later than the next due test. New evidence brings it back sooner.
      </p>
    </div>
  )
}
