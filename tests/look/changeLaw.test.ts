import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Changes, WouldChange } from '../../lib/look/index.ts'
import { DEFAULT_PLAN } from '../../lib/plan/index.ts'
import type { Analyte, History, LabResult } from '../../lib/results/index.ts'
import { assess } from '../../lib/standing/index.ts'
import { addDays, type Day, day } from '../../lib/time/index.ts'
import { decimal, decimalText } from '../../lib/units/index.ts'
import { inventCohort } from '../../seed/index.ts'
import { history } from '../builders/history.ts'
import { labResult } from '../builders/labResult.ts'
import { throughIntake } from '../seed/throughIntake.ts'
import { asked } from '../standing/inventedHistory.ts'
import { changesOf } from './asked.ts'

type Valued = Extract<WouldChange, { edge: unknown }>
const isValued = (change: WouldChange): change is Valued => 'edge' in change

/** The last result of an analyte that holds a value, as a person would look it up. */
function lastOf({ results, decisions }: History, analyte: Analyte, upTo: Day): LabResult {
  const found = results
    .filter((one) => one.analyte === analyte && one.collected.on <= upTo && one.value.kind === 'number')
    .toSorted((a, b) => (a.collected.on < b.collected.on ? -1 : a.collected.on > b.collected.on ? 1 : a.collected.order - b.collected.order))
    .at(-1)
  if (found === undefined || decisions.length > 0) throw new Error(`no ${analyte} to go on from`)
  return found
}

/** The history with the next sample, made by the builders of the tests and not by what made the statement. */
function withNext(known: History, { edge }: Valued, printed: string, today: Day): History {
  const last = lastOf(known, edge.analyte, today)
  const text = (limit: LabResult['referenceLow']) => (limit === null ? null : decimalText(limit.printed))
  const [low, high] = [text(last.referenceLow), text(last.referenceHigh)]
  const more = {
    laboratory: last.laboratory,
    method: last.method,
    ...(low === null ? {} : { referenceLow: low }),
    ...(high === null ? {} : { referenceHigh: high }),
  }
  const others = edge.with.map(({ analyte }, at) => {
    const other = lastOf(known, analyte, today)
    const { id: _, ...copy } = other
    return { ...copy, laboratory: last.laboratory, id: 900_001 + at, collected: { text: edge.on, on: edge.on, order: Date.parse(edge.on) } }
  })
  return {
    ...known,
    results: [...known.results, labResult([edge.on, edge.analyte, printed, edge.unit.replace('/24 h', '/(24.h)'), more], 900_000), ...others],
  }
}

function step({ at, beside }: Valued['edge']): string {
  const [one, other] = [decimal(at), decimal(beside)]
  return decimalText(one.plus(one.minus(other)))
}

/** Assesses the patient afresh on each side of every edge, and one step farther. */
function holdsTrue(known: History, today: Day, { changes, holds }: Changes): number {
  for (const change of changes.filter(isValued)) {
    const { edge, rule, gives, otherwise, what } = change
    const said = (printed: string) => {
      const { window, findings } = assess(withNext(known, change, printed, today), DEFAULT_PLAN, edge.on)
      const found = findings.find((one) => one.rule === rule)
      return { window, state: found?.state ?? null, certain: found?.certainty === 'certain' }
    }
    const context = JSON.stringify({ rule, what, edge })
    expect(said(edge.at), context).toEqual(gives)
    expect(said(edge.beside), context).toEqual(otherwise)
    const farther = said(step(edge))
    if (what === 'confirms') expect(farther, context).toMatchObject({ state: 'confirmed', certain: true })
    if (what === 'first-met') expect(farther.state, context).not.toBeNull()
    if (what === 'no-longer-shown' && decimal(step(edge)).gte(0)) expect(farther.state, context).toBeNull()
    const isAsSaid = {
      confirms: gives.state === 'confirmed' && gives.certain && !(otherwise.state === 'confirmed' && otherwise.certain),
      'first-met': gives.state !== null && gives.certain && !(otherwise.state !== null && otherwise.certain),
      'no-longer-shown': gives.state === null && otherwise.state !== null,
    }
    expect(isAsSaid[what], context).toBe(true)
  }
  const { until, next } = holds
  if (until !== null && next !== null) {
    const now = assess(known, DEFAULT_PLAN, today)
    expect(assess(known, DEFAULT_PLAN, until).window).toBe(now.window)
    expect(next.on).toBe(addDays(until, 1))
    expect(assess(known, DEFAULT_PLAN, next.on).window).toBe(next.window)
  }
  return changes.filter(isValued).length
}

describe('every statement of what would change', () => {
  const today = day('2026-11-25')
  const { histories } = throughIntake(inventCohort({ patients: 160, years: 4, seed: 7, endsOn: today }).files, today)

  it('is what assessing the patient afresh gives: on the edge, one step beside it, one step beyond, over the invented cohort', () => {
    const counted = histories.map((known) => holdsTrue(known, today, changesOf(known, today)))
    expect(counted.reduce((sum, one) => sum + one, 0)).toBeGreaterThan(150)
  }, 180_000)

  it('holds for any history and any day', () => {
    fc.assert(
      fc.property(asked, ({ words, today: on }) => {
        const known = history(words)
        holdsTrue(known, day(on), changesOf(known, day(on)))
      }),
      { numRuns: 80 },
    )
  }, 180_000)

  it('of a test done names a gap that is open today, and a group of the plan', () => {
    const named = histories.flatMap((known) => {
      const open = assess(known, DEFAULT_PLAN, today).open.map(({ rule, facts }) => `${rule} ${facts.group}`)
      return changesOf(known, today).changes.flatMap((change) => (change.what === 'done' ? [open.includes(`${change.rule} ${change.group}`)] : []))
    })
    expect(named.length).toBeGreaterThan(5)
    expect(named).not.toContain(false)
  }, 60_000)
})
