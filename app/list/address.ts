import type { ListQuery } from '../../lib/usecases/index.ts'

/** Where a review list stands: with names, or under pseudonyms. */
export type ListAt = '/list' | '/cohort'

/** The address of the list with something changed; what stands at its usual value is left out. Any change but the page's goes back to page 1. */
export function addressOf(query: ListQuery, change: Partial<ListQuery>, at: ListAt = '/list'): string {
  const asked = { ...query, page: 1, ...change }
  const fields = new URLSearchParams()
  for (const name of ['window', 'phase', 'clinician', 'rule'] as const) {
    const value = asked[name]
    if (value !== null) fields.set(name, value)
  }
  if (asked.pseudonym) fields.set('pseudonym', asked.pseudonym)
  if (asked.news) fields.set('news', asked.news)
  if (asked.since) fields.set('since', String(asked.since))
  if (asked.has) fields.set('has', String(asked.has))
  if (asked.mine === true) fields.set('mine', 'yes')
  if (asked.handed === true) fields.set('handed', 'yes')
  if (asked.sort !== 'urgency') fields.set('sort', asked.sort)
  if (asked.descending) fields.set('order', 'down')
  if (asked.page > 1) fields.set('page', String(asked.page))
  const text = fields.toString()
  return text === '' ? at : `${at}?${text}`
}

/** Where the list as it is asked for, all its pages, or every finding of it, is exported from. */
export function exportAddress(query: ListQuery, what: '' | '/findings' = '', at: ListAt = '/list'): string {
  return addressOf(query, {}, at).replace(at, `${at}/export${what}`)
}

/** Where the same list is laid out for paper. */
export const paperAddress = (query: ListQuery): string => addressOf(query, {}).replace('/list', '/list/print')
