/** The tabs of one browser share one session. They tell each other to look again and nothing else: no name and no time is in it. */
const CHANNEL = 'lowmark.session'

export interface OtherTabs {
  readonly tell: () => void
  readonly close: () => void
}

/** Joins the other tabs; `look` is called when one of them signed in or out or showed life. */
export function joinOtherTabs(look: () => void): OtherTabs {
  const channel = new BroadcastChannel(CHANNEL)
  channel.onmessage = look
  return { tell: () => channel.postMessage('look'), close: () => channel.close() }
}
