'use client'

import { type KeyboardEvent, useRef, useState } from 'react'
import type { AnswerChoice, Answered, BesideView } from '../../../lib/usecases/index.ts'
import { ListTable, type ListTableProps } from '../ListTable.tsx'
import type { PackedRows } from '../packed.ts'
import { askRoundAnew } from '../round/useRoundNow.ts'
import { useRows } from '../useRows.ts'
import { Help } from './Help.tsx'
import { type Command, commandOf, isWriting } from './keys.ts'
import { rowDone, rowTakenBack } from './outcome.ts'
import { Panel } from './Panel.tsx'
import { useIsAlive } from './useIsAlive.ts'
import { type Last, nameOf, useList } from './useList.ts'
import type { BesideActs } from './Work.tsx'
import './beside.css'

interface Props extends Omit<ListTableProps, 'rows' | 'at' | 'beside'> {
  readonly packed: PackedRows
  readonly acts: BesideActs
}

/** The review list with one patient beside it: read, answer, next, with the mouse or with one key a step. */
export function WorkList({ packed, acts, ...table }: Props) {
  const rows = useRows(packed)
  const list = useRef<HTMLDivElement>(null)
  const work = useList(rows, list)
  const { openAt } = work
  const [said, say] = useState('')
  const [last, setLast] = useState<Last | null>(null)
  const [busy, setBusy] = useState(false)
  const [helps, setHelps] = useState(false)
  const isAlive = useIsAlive()
  const opened = openAt === null ? undefined : rows[openAt]

  const move = (by: 1 | -1) => {
    const from = work.at()
    const to = Math.min(Math.max(from + by, 0), rows.length - 1)
    const inList = work.isInList() || openAt === null
    if (openAt !== null && to !== openAt) work.show(to, { focus: inList ? 'none' : 'heading' }, false)
    if (inList) work.focusRow(to)
    if (to === from) say(by === 1 ? 'This is the last patient of this page.' : 'This is the first patient of this page.')
  }

  const answered = (answer: Answered, kind: AnswerChoice['kind'], view: BesideView, count: number) => {
    if (openAt === null || opened === undefined) return
    const became = rowDone(opened, answer, kind, count)
    work.mark(view.patientId, became)
    askRoundAnew()
    work.keepDraft(view.patientId, null)
    setLast({ at: openAt, patientId: view.patientId, decisionIds: answer.decisionIds })
    const told = `${view.name ?? view.patientId}: ${became.says}`
    const next = rows.findIndex(({ id }, at) => at > openAt && !work.done.has(id))
    const following = rows[next]
    say(`${told} ${following === undefined ? 'That was the last patient of this page.' : `Next: ${nameOf(following)}.`}`)
    if (following === undefined) work.close()
    else work.show(next)
  }

  const takeBack = async () => {
    if (busy) return
    if (last === null) return say('There is no answer of yours on this page to take back.')
    setBusy(true)
    const form = new FormData()
    form.set('patientId', last.patientId)
    form.set('decisionIds', last.decisionIds.join(','))
    const outcome = await acts.takeBack(form).catch(() => null)
    setBusy(false)
    const row = rows[last.at]
    const name = row === undefined ? last.patientId : nameOf(row)
    if (outcome === null) return say('Lowmark could not be reached, so the answer still stands. Try again in a minute.')
    if (!outcome.ok) return say(`${name}: ${outcome.reason}`)
    setLast(null)
    askRoundAnew()
    if (row !== undefined) work.mark(last.patientId, rowTakenBack(row, outcome.value.row))
    say(`${name}: taken back. The patient stands as before.`)
    work.show(last.at)
  }

  const run = (command: Command) => {
    const at = Math.max(work.at(), 0)
    if (command.does === 'next') return move(1)
    if (command.does === 'previous') return move(-1)
    if (command.does === 'help') return setHelps(!helps)
    if (command.does === 'take-back') return void takeBack()
    if (command.does === 'open') return work.show(at)
    const row = rows[at]
    // Chosen at once, not when the form is drawn: whoever types quickly sends what they chose.
    if (command.does === 'answer' && row !== undefined) work.keepDraft(row.id, { ...work.draftOf(row.id), kind: command.kind })
    return at === openAt ? work.want({ focus: 'note' }) : work.show(at, { focus: 'note' })
  }

  const onKeyDown = (event: KeyboardEvent) => {
    if (event.defaultPrevented) return
    const writing = isWriting(event.target)
    if (event.key === 'Escape') {
      if (helps) setHelps(false)
      else if (writing) work.want({ focus: 'heading' })
      else if (openAt !== null) work.close()
      else return
      return event.preventDefault()
    }
    const command = writing ? null : commandOf(event, { inList: work.isInList() })
    if (command === null || rows.length === 0) return
    event.preventDefault()
    run(command)
  }

  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: keys are a second way to what buttons and fields inside do
    <div className={`work${isAlive ? '' : ' work-to-come'}${opened === undefined ? '' : ' work-open'}`} onKeyDown={onKeyDown}>
      <div className="work-ways no-print">
        <button className="button button-quiet" type="button" onClick={() => work.show(Math.max(work.at(), 0))}>
          Go through the list
        </button>
        <button className="button button-quiet" type="button" aria-expanded={helps} onClick={() => setHelps(!helps)}>
          Keys <kbd>?</kbd>
        </button>
      </div>
      {helps && <Help close={() => setHelps(false)} />}
      <div className="work-list" id="patients" tabIndex={-1} ref={list}>
        <ListTable rows={rows} {...table} beside={{ openId: opened?.id ?? null, done: work.done, open: isAlive ? (at) => work.show(at) : null }} />
      </div>
      {opened?.address != null && (
        <Panel
          key={opened.address}
          address={opened.address}
          name={nameOf(opened)}
          now={work.now}
          close={work.close}
          acts={acts}
          wanted={work.wanted}
          draft={work.draftOf(opened.id)}
          keepDraft={(draft) => work.keepDraft(opened.id, draft)}
          onAnswered={answered}
          onTakenBack={(row) => {
            work.mark(opened.id, rowTakenBack(opened, row))
            askRoundAnew()
            if (last?.patientId === opened.id) setLast(null)
          }}
        />
      )}
      <div className="work-said no-print">
        <p role="status">{said}</p>
        {last !== null && (
          <button className="button button-quiet" type="button" onClick={() => void takeBack()} aria-disabled={busy}>
            Take it back <kbd>z</kbd>
            <span className={busy ? 'pending' : ''} />
          </button>
        )}
      </div>
    </div>
  )
}
