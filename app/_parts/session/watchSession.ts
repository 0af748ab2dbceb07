import type { SessionAnswer } from '../../_server/tellSession.ts'
import { askSession } from './askSession.ts'
import { joinOtherTabs } from './otherTabs.ts'
import { hearSignsOfLife } from './signsOfLife.ts'
import { type Ends, isSameStanding, type Standing, standingAt } from './standing.ts'

/** Who the page was made for. */
export interface Person {
  readonly name: string
  readonly role: string
}

export interface Watch {
  /** A person's sign of life, told at once. */
  readonly stay: () => void
  /** Asks the server again how the session stands. */
  readonly look: () => Promise<void>
  readonly stop: () => void
}

const MINUTE_MS = 60_000
const STEP_MS = 1000

/**
 * Watches the session a page was made in, by asking the server; `onStanding` hears each change. Signs of life are told at most once a minute. `onOther`
 * is called where somebody else signed in meanwhile.
 */
export function watchSession(person: Person, onStanding: (standing: Standing) => void, onOther: () => void): Watch {
  let ends: Ends | null = null
  let standing: Standing = { kind: 'open' }
  let askedAt = 0
  // Opening the page was one.
  let aliveAt = Date.now()
  let stopped = false

  const stand = (next: Standing): void => {
    if (stopped || isSameStanding(standing, next)) return
    standing = next
    onStanding(next)
  }
  const hear = (answer: SessionAnswer | null): void => {
    if (stopped || answer === null) return
    if (!answer.open) {
      ends = null
      stand({ kind: 'ended' })
    } else if (answer.name !== person.name || answer.role !== person.role) {
      stand({ kind: 'ended' })
      onOther()
    } else {
      ends = { idleAt: Date.now() + answer.idleMs, longestAt: Date.now() + answer.longestMs }
      stand(standingAt(ends, Date.now()))
    }
  }
  const ask = async (alive: boolean): Promise<void> => {
    askedAt = Date.now()
    if (alive) aliveAt = askedAt
    hear(await askSession({ alive }))
  }
  const look = (): Promise<void> => ask(false)
  const tabs = joinOtherTabs(() => void look())
  const stay = (): void => {
    if (standing.kind !== 'ended') void ask(true).then(tabs.tell)
  }
  const step = (): void => {
    // Covered first and asked afterwards: a machine that slept must not show for a moment what nobody may see any more.
    const now = ends === null ? standing : standingAt(ends, Date.now())
    const changes = now.kind !== standing.kind
    stand(now)
    if (changes || Date.now() - askedAt >= MINUTE_MS) void look()
  }
  const seen = (): void => {
    step()
    if (document.visibilityState === 'visible') void look()
  }

  const timer = setInterval(step, STEP_MS)
  const deafen = hearSignsOfLife(() => {
    const warned = standing.kind === 'warned' && standing.why === 'idle' && Date.now() - aliveAt >= STEP_MS
    if (warned || Date.now() - aliveAt >= MINUTE_MS) stay()
  })
  document.addEventListener('visibilitychange', seen)
  window.addEventListener('pageshow', seen)
  void look()
  tabs.tell()
  return {
    stay,
    look,
    stop() {
      stopped = true
      clearInterval(timer)
      deafen()
      document.removeEventListener('visibilitychange', seen)
      window.removeEventListener('pageshow', seen)
      // Signed out here: the other tabs find it out now and not in a minute.
      tabs.tell()
      tabs.close()
    },
  }
}
