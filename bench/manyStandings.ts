import type { StandingRow } from '../lib/store/index.ts'
import type { Call } from '../lib/usecases/index.ts'

const AT_A_TIME = 1000

/** Repeats what is kept of a small cohort under other numbers until there are so many patients: through the store, without evaluating anybody. */
export async function manyStandings({ store, ...call }: Call, patients: number): Promise<void> {
  const { reader } = store
  const kept = reader.standings().filter(({ followed }) => followed)
  const people = kept.map((standing) => ({ standing, patient: reader.patient(standing.patientId)?.patient ?? null }))
  const from = reader.recentFiles(1)[0]?.id ?? 1
  for (let done = kept.length; done < patients; done += AT_A_TIME) {
    await store.record(call, (tx) => {
      for (let at = done; at < Math.min(done + AT_A_TIME, patients); at++) {
        const { standing, patient } = people[at % people.length] ?? {}
        if (standing === undefined || patient == null) continue
        const patientId = `Q${String(at).padStart(6, '0')}`
        tx.insertPatient({ ...patient, id: patientId }, { fileId: from, line: 1 })
        const row: StandingRow = { ...standing, patientId, historyRevision: reader.patient(patientId)?.revision ?? 0 }
        tx.saveStanding({ ...row, open: row.open.map((one) => ({ ...one, key: `${one.key.slice(0, 26)}${String(at).padStart(6, '0')}` })) })
      }
      return { value: null, events: [{ action: 'standings-renewed', patients: AT_A_TIME, because: 'day' }] }
    })
  }
}
