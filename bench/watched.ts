import type { Call } from '../lib/usecases/index.ts'

/** What a store did while it was watched. */
export interface Watch {
  /** Patients whose history was loaded: nobody can be evaluated without. */
  evaluations: number
  /** Milliseconds between taking the write lock and the end of the change, of the longest change. */
  longestLockMs: number
}

/** The same call on the same store, counting evaluations and the time changes take under the write lock. */
export function watched(call: Call): { readonly call: Call; readonly watch: Watch } {
  const watch: Watch = { evaluations: 0, longestLockMs: 0 }
  const counting = <T extends Call['store']['reader']>(questions: T): T => ({
    ...questions,
    loadHistory: (patientId: string) => {
      watch.evaluations += 1
      return questions.loadHistory(patientId)
    },
    loadCounted: (patientId: string) => {
      watch.evaluations += 1
      return questions.loadCounted(patientId)
    },
  })
  const { store } = call
  const record: Call['store']['record'] = (by, change) =>
    store.record(by, (tx) => {
      const began = performance.now()
      try {
        return change(counting(tx))
      } finally {
        watch.longestLockMs = Math.max(watch.longestLockMs, performance.now() - began)
      }
    })
  return { call: { ...call, store: { ...store, reader: counting(store.reader), record } }, watch }
}
