import { DIMENSIONS, type Dimension, OTHERS, type Verdict } from '../../followup/index.ts'
import type { Day } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import type { Progress } from '../intake/incoming.ts'
import type { Found } from './auditPart.ts'
import { askBehind, type BehindAsked, type BehindView, tellBehind } from './behind.ts'
import type { FollowUpWish, ReadFollowUpWish } from './readWish.ts'
import { workOut } from './workOut.ts'

/** A group of an audit as it stood in its table, and of its tests perhaps only those with one verdict. */
export interface OccasionsWish extends Omit<FollowUpWish, 'whatIf'> {
  readonly by: Dimension
  readonly key: string
  readonly verdict: Extract<Verdict, 'on-time' | 'late' | 'missed'> | null
}

/** One test that was due. */
interface OccasionTold {
  readonly group: string
  readonly dueOn: Day
  readonly graceEndsOn: Day
  readonly doneOn: Day | null
  readonly verdict: string
  readonly daysLate: number
  readonly phase: string | null
  readonly planVersion: string
}

export type OccasionsView = BehindView<OccasionTold>
/** One test that was due, and whose it was. */
export type OccasionRow = OccasionsView['rows'][number]

/** The figures with the tests behind a row of theirs; null where there is no such row. Which groups `others` stands for is known only once all are counted. */
async function testsOf(
  call: Call,
  wish: ReadFollowUpWish,
  { by, key, verdict }: Pick<OccasionsWish, 'by' | 'key' | 'verdict'>,
  onProgress?: (progress: Progress) => void,
): Promise<{ readonly found: readonly Found[]; readonly revision: number } | null> {
  const first = await workOut(call, wish, key === OTHERS ? null : { by, keys: [key], verdict }, onProgress)
  const row = first.figures.by[by].find((group) => group.key === key)
  if (row === undefined) return null
  return key === OTHERS ? workOut(call, wish, { by, keys: row.keys, verdict }, onProgress) : first
}

/** Whether these tests can be told to whoever asks. Tells of nobody, so nothing is logged. */
export function askOccasions(call: Call, { by, key: _, verdict: __, ...wish }: OccasionsWish): Promise<Outcome<BehindAsked>> {
  return askBehind(call, wish, DIMENSIONS.includes(by) ? null : `The audit is not told apart by "${by}".`)
}

/**
 * The tests behind one row of the audit's tables, latest first: with patient numbers for whoever may open patients, else under pseudonyms. Groups that are too
 * small to be shown can be asked for only together, as they are shown. Logs whose they were.
 */
export async function readOccasions(call: Call, wish: OccasionsWish, onProgress?: (progress: Progress) => void): Promise<Outcome<OccasionsView>> {
  const asked = await askOccasions(call, wish)
  if (!asked.ok) return asked
  const { by, key } = wish
  return tellBehind(call, asked.value, async () => {
    const told = await testsOf(call, { period: asked.value.period, whatIf: null }, wish, onProgress)
    if (told === null) {
      const reason = `The audit shows no group "${key}" by ${by}; groups that are too small stand together as "${OTHERS}".`
      return { ok: false, kind: 'not-found', reason }
    }
    return {
      ok: true,
      value: {
        ...{ found: told.found, revision: told.revision, by },
        placeOf: ({ patientId, daysLate, dueOn }: Found) => ({ patientId, days: daysLate, since: dueOn }),
        rowOf: ({ group, dueOn, graceEndsOn, doneOn, verdict, daysLate, phase, planVersion }: Found) => ({
          ...{ group, dueOn, graceEndsOn, doneOn, verdict, daysLate, phase, planVersion },
        }),
      },
    }
  })
}
