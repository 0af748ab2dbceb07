import type { Metadata } from 'next'
import { AssignForm } from '../../_parts/assign/AssignForm.tsx'
import { CourseChange } from '../../_parts/courseChange/index.ts'
import { Band, ClosedRecord } from '../../_parts/emergency/index.ts'
import { type Asked, compareWish } from '../../_parts/look/compareWish.ts'
import { JoinedRecord, MadeOfRecords, PatientMerges, ReadTogether } from '../../_parts/merge/index.ts'
import { NotShown } from '../../_parts/NotShown.tsx'
import { TakeAway } from '../../_parts/paper/index.ts'
import { PatientPage, PatientWays } from '../../_parts/patient/index.ts'
import { courseChangeActs } from '../../_server/courseChangeActs.ts'
import { emergencyAct } from '../../_server/emergencyAct.ts'
import { endEmergencyView } from '../../_server/emergencyActs.ts'
import { MERGE_ACTS, mergesOfPatient } from '../../_server/mergeActs.ts'
import { assignmentPart, patientPage } from '../../_server/pages.ts'
import { patientActs } from '../../_server/patientActs.ts'
import { givePatient } from '../../_server/roundActs.ts'

// A title stays in the browser's history: it names nobody.
export const metadata: Metadata = { title: 'Patient' }

interface Props {
  readonly params: Promise<{ address: string }>
  readonly searchParams: Promise<Asked>
}

/** One patient; with two days in the address, those side by side. */
export default async function Page({ params, searchParams }: Props) {
  const { address } = await params
  const merges = await mergesOfPatient(address)
  if (merges !== null && merges.joinedTo !== null) return <JoinedRecord merge={merges.joinedTo} end={MERGE_ACTS.end} />
  const outcome = await patientPage(address, compareWish(await searchParams))
  if (!outcome.ok && outcome.closed) return <ClosedRecord refusal={outcome} address={address} open={await emergencyAct()} />
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const { emergency } = outcome.value
  if (emergency !== null)
    return (
      <>
        <Band view={emergency} end={endEmergencyView} />
        {merges !== null && <ReadTogether merges={merges} />}
        <PatientWays address={address} changes={false} />
        <PatientPage patient={outcome.value} />
        <CourseChange patient={outcome.value} acts={null} />
        <TakeAway address={address} />
      </>
    )
  const [assignment, changes] = [await assignmentPart(address), await courseChangeActs()]
  return (
    <>
      {merges !== null && <MadeOfRecords merges={merges} />}
      <PatientWays address={address} changes={changes !== null} />
      <PatientPage patient={outcome.value} acts={await patientActs()} />
      {assignment.ok && assignment.value !== null && <AssignForm assignment={assignment.value} give={givePatient} />}
      <CourseChange patient={outcome.value} acts={changes} />
      <TakeAway address={address} />
      {merges !== null && <PatientMerges merges={merges} acts={MERGE_ACTS} />}
    </>
  )
}
