'use client'

import { type RefObject, useState } from 'react'
import type { Listed } from '../listed.ts'
import type { Draft, Wanted } from './AnswerBeside.tsx'
import type { RowDone } from './outcome.ts'

/** An answer that can be taken back with one key. */
export interface Last {
  readonly at: number
  readonly patientId: string
  readonly decisionIds: readonly number[]
}

export const NO_DRAFT: Draft = { note: '', kind: 'seen' }
const HEADING: Wanted = { focus: 'heading' }

const linksOf = (list: HTMLElement | null) => [...(list?.querySelectorAll<HTMLElement>('.row .open') ?? [])]
export const nameOf = ({ name, id }: Listed): string => name ?? id

/** Where the reader is in the list, what is open beside it, and what became of each row. */
export function useList(rows: readonly Listed[], list: RefObject<HTMLElement | null>) {
  const [drawn, setDrawn] = useState(rows)
  const [openAt, setOpenAt] = useState<number | null>(null)
  const [wanted, setWanted] = useState<Wanted>({ focus: 'none' })
  const [now, setNow] = useState(true)
  const [done, setDone] = useState<ReadonlyMap<string, RowDone>>(new Map())
  const [drafts, setDrafts] = useState<ReadonlyMap<string, Draft>>(new Map())
  // A list drawn anew tells by itself what became of everybody.
  if (drawn !== rows) {
    setDrawn(rows)
    setDone(new Map())
    setOpenAt(null)
  }
  const isInList = () => list.current?.contains(document.activeElement) === true
  const focusRow = (at: number) => linksOf(list.current)[at]?.focus()
  return {
    openAt,
    wanted,
    now,
    done,
    isInList,
    focusRow,
    /** The row the reader is at: the one with the focus, else the one beside; -1 before the first. */
    at(): number {
      const focused = linksOf(list.current).findIndex((link) => link.closest('.row')?.contains(document.activeElement))
      return focused >= 0 ? focused : (openAt ?? -1)
    },
    show(at: number, ask: Wanted = HEADING, atOnce = true) {
      setNow(atOnce)
      setWanted({ ...ask })
      setOpenAt(at)
      linksOf(list.current)[at]?.scrollIntoView({ block: 'nearest' })
    },
    want: (ask: Wanted) => setWanted({ ...ask }),
    close() {
      setOpenAt(null)
      if (openAt === null) return
      // The list may be out of sight on a narrow screen until this is drawn.
      requestAnimationFrame(() => focusRow(openAt))
    },
    mark(patientId: string, became: RowDone | null) {
      setDone((was) => {
        const next = new Map(was)
        if (became === null) next.delete(patientId)
        else next.set(patientId, became)
        return next
      })
    },
    draftOf: (patientId: string): Draft => drafts.get(patientId) ?? NO_DRAFT,
    keepDraft(patientId: string, draft: Draft | null) {
      setDrafts((was) => new Map(was).set(patientId, draft ?? NO_DRAFT))
    },
  }
}
