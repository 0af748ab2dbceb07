import { type Call, recheck, verifyLog } from '../lib/usecases/index.ts'

/** Throws unless everybody evaluated afresh comes to what is kept, and the log is one chain from its first entry: what was measured was done right. */
export async function requireClean(call: Call, after: string): Promise<void> {
  const checked = await recheck(call)
  if (!checked.ok) throw new Error(checked.reason)
  const [first] = checked.value.differences
  if (first !== undefined) throw new Error(`After ${after}, what is kept of ${first.patientId} ${first.says}.`)
  const log = await verifyLog(call)
  if (!log.ok || log.value.firstBad !== null) throw new Error(`After ${after}: ${log.ok ? log.value.says : log.reason}`)
}
