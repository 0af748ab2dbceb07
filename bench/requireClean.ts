import { type Call, recheck, verifyLog } from '../lib/usecases/index.ts'

/** Throws unless everybody evaluated afresh comes to what is kept. `after` says what was done before. Answers how many patients that were. */
export async function requireSameAfresh(call: Call, after: string): Promise<number> {
  const checked = await recheck(call)
  if (!checked.ok) throw new Error(checked.reason)
  const [first] = checked.value.differences
  if (first !== undefined) throw new Error(`After ${after}, what is kept of ${first.patientId} ${first.says}.`)
  return checked.value.patients
}

/** Throws unless the log is one chain from its first entry. */
export async function requireWholeLog(call: Call): Promise<void> {
  const log = await verifyLog(call)
  if (!log.ok || log.value.firstBad !== null) throw new Error(log.ok ? log.value.says : log.reason)
}

/** Throws unless what was measured was done right: both of these. */
export async function requireClean(call: Call, after: string): Promise<void> {
  await requireSameAfresh(call, after)
  await requireWholeLog(call)
}
