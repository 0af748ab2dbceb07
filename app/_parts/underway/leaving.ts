import { askRenewal } from './askRenewal.ts'
import { begin } from './underWay.ts'

/** The browser shows by itself that a page is loading; ours is only to say it sooner. It ends with the page, or where the page stays after all. */
const LONGEST_MS = 20_000
/** A file of 20,000 patients is made in some 9 s where others work on the machine, too. */
const FILE_MS = 15_000

function forAWhile(kind: 'loading' | 'file', ms: number): void {
  const end = begin(kind)
  // Working out the answers of today may take minutes after a new version: so long the page is on its way.
  const orLonger = async (): Promise<void> => {
    if (kind === 'loading' && (await askRenewal()) !== null) setTimeout(() => void orLonger(), ms)
    else end()
  }
  setTimeout(() => void orLonger(), ms)
  window.addEventListener('pageshow', end, { once: true })
}

/** The browser is asked for a whole new page. */
export function leaving(): void {
  forAWhile('loading', LONGEST_MS)
}

function isPlain(event: MouseEvent): boolean {
  return event.button === 0 && !event.metaKey && !event.ctrlKey && !event.shiftKey && !event.altKey
}

function followed(event: MouseEvent): void {
  const link = event.target instanceof Element ? event.target.closest('a') : null
  if (event.defaultPrevented || !isPlain(event) || link === null || link.href === '' || (link.target !== '' && link.target !== '_self')) return
  const to = new URL(link.href)
  const here = window.location
  if (to.origin !== here.origin || (to.hash !== '' && to.pathname === here.pathname && to.search === here.search)) return
  if (link.hasAttribute('download')) forAWhile('file', FILE_MS)
  else leaving()
}

function sent(event: SubmitEvent): void {
  const form = event.target
  if (event.defaultPrevented || !(form instanceof HTMLFormElement)) return
  // A plain form that posts asks for a file: everything else that posts is answered on the page it stands on.
  if (form.method === 'post') forAWhile('file', FILE_MS)
  else leaving()
}

/** Watches plain links and plain forms, which the browser follows by itself. On the window: by then whoever handles one differently has said so. */
export function watchLeaving(): () => void {
  window.addEventListener('click', followed)
  window.addEventListener('submit', sent)
  return () => {
    window.removeEventListener('click', followed)
    window.removeEventListener('submit', sent)
  }
}
