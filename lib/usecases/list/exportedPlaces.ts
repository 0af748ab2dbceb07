import { urgencyKey } from '../../review/index.ts'
import type { Assessment } from '../../standing/index.ts'
import type { StandingOnList } from '../../store/index.ts'
import type { Day } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import { comparedWith } from '../rounds/comparedWith.ts'
import { renewStandings } from '../standing/renewStandings.ts'
import type { ListQuery } from '../views.ts'
import { assessedInOrder } from './assessedInOrder.ts'
import { clinicianUnder } from './clinicianKey.ts'
import { patientUnder } from './patientUnder.ts'
import { roundFilter } from './roundFilter.ts'
import { standingAnswer } from './standingAnswer.ts'

type WholeQuery = Omit<ListQuery, 'page' | 'pageSize'>

/** What to export: today's list as an address asks for it, all its pages; or everybody as of a day (null: today). */
export type ListWish = { readonly query: WholeQuery } | { readonly asOf: Day | null }

/** Everybody on the list that is wished for, in its order. */
export interface ExportedPlaces {
  readonly asOf: Day
  readonly places: readonly StandingOnList[]
}

const EVERYBODY = { window: null, phase: null, clinician: null, rule: null, sort: 'urgency', descending: false } as const

function placed({ reader }: Call['store'], assessment: Assessment): StandingOnList {
  const { id, familyName, givenName, clinician } = assessment.course.patient
  const answer = JSON.stringify(standingAnswer(assessment))
  const address = reader.patientAddress(id)
  return { patientId: id, address, familyName, givenName, clinician, window: assessment.window, since: urgencyKey(assessment).since, answer }
}

/** Today's list as an address asks for it, `most` places of it at most, and how many match. Nobody is evaluated but for what no longer holds. */
export async function todaysPlaces(
  call: Call,
  query: WholeQuery,
  most = Number.POSITIVE_INFINITY,
): Promise<Outcome<{ readonly places: readonly StandingOnList[]; readonly matching: number }>> {
  await renewStandings(call)
  const { reader } = call.store
  const under = patientUnder(call, query.pseudonym)
  if (!under.ok) return under
  const value = reader.atOnce(() => {
    const { followed, clinicians } = reader.listFacets()
    const clinician = clinicianUnder(clinicians, query.clinician)
    const pageSize = Math.min(Math.max(followed, 1), most)
    const { rows, matching } = reader.standingsPage({
      ...query,
      clinician,
      ...roundFilter(call, query, comparedWith(reader, query.since ?? null)),
      patientId: under.value,
      page: 1,
      pageSize,
    })
    return { places: rows, matching }
  })
  return { ok: true, value }
}

/** Everybody the wish is for; a past day is evaluated afresh. Writes no entry: whoever exports them does. */
export async function exportedPlaces(call: Call, wish: ListWish): Promise<Outcome<ExportedPlaces>> {
  const asOf = 'asOf' in wish ? (wish.asOf ?? call.today) : call.today
  if (asOf !== call.today)
    return { ok: true, value: { asOf, places: assessedInOrder(call, asOf).map((assessment) => placed(call.store, assessment)) } }
  const todays = await todaysPlaces(call, 'query' in wish ? wish.query : EVERYBODY)
  return todays.ok ? { ok: true, value: { asOf, places: todays.value.places } } : todays
}
