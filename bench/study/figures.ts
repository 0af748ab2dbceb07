import type { CriterionRule } from './crossing.ts'
import { type Crossed, crossedOf, type Delays, delays } from './delays.ts'
import { byYear, type FalseFlags, falseFlags, RULE_OF_GROUP, stableOf } from './falseFlags.ts'
import { INTERVALS, STABLE_KINDS, type StableKind } from './kinds.ts'
import { type LargeRise, largeRises } from './largeRises.ts'
import { type Leads, leads } from './leads.ts'
import type { Rate } from './rates.ts'
import { byLowest, READINGS, said, saidByAny, underSetting } from './readings.ts'
import { heldByThree } from './runs.ts'
import { SETTINGS, type Setting } from './settings.ts'
import { ruleOf, type Simulated } from './simulate.ts'
import { YEARS } from './trueCourse.ts'
import { JUDGED_BY_LOWEST, PD_RULES, PROJECTION, type Studied } from './watched.ts'

export type Group = StableKind['group']
export const GROUPS = Object.keys(RULE_OF_GROUP) as Group[]

/** False flags of the rule a group of stable patients tests, by the lowest confirmed value and by the plain lowest. */
export interface ByReading {
  readonly usual: FalseFlags
  readonly plain: FalseFlags
  /** By the lowest confirmed value, where `confirmed` needs three samples. */
  readonly three: FalseFlags
}

export interface Figures {
  readonly courses: number
  readonly seed: number
  readonly levels: readonly (ByReading & { readonly kind: StableKind })[]
  readonly groups: readonly (ByReading & { readonly group: Group; readonly every: number | null })[]
  readonly years: readonly { readonly group: Group; readonly rates: readonly Rate[] }[]
  /** Rules beside the group's own one. */
  readonly others: readonly { readonly group: Group; readonly rule: Studied; readonly flags: FalseFlags }[]
  readonly relapses: readonly {
    readonly rule: CriterionRule
    readonly usual: Delays
    readonly plain: Delays
    /** Whatever rule says it. */
    readonly any: Delays
  }[]
  /** Relapses drawn, and those whose truth crossed, stayed above, and had two samples after it in the years that count. */
  readonly drawn: number
  readonly crossed: number
  /** `every` is null for all sampling intervals together. */
  readonly leads: readonly { readonly early: Studied; readonly late: CriterionRule; readonly every: number | null; readonly leads: Leads }[]
  readonly settings: readonly { readonly setting: Setting; readonly rule: (typeof PD_RULES)[number]; readonly falsely: Rate; readonly leads: Leads }[]
  readonly readings: readonly { readonly rule: CriterionRule; readonly name: string; readonly falsely: Rate; readonly delays: Delays }[]
  readonly large: readonly { readonly rule: (typeof PD_RULES)[number]; readonly curve: readonly LargeRise[] }[]
}

const OTHERS: readonly Studied[] = ['significant-relapse', PROJECTION]

function byReading(patients: readonly Simulated[], group: Group): ByReading {
  const rule = RULE_OF_GROUP[group]
  return {
    usual: falseFlags(patients, said(rule)),
    plain: falseFlags(patients, byLowest(rule)),
    three: falseFlags(patients, (one) => heldByThree(one.said[rule])),
  }
}

const groupOf = (rule: CriterionRule): Group => GROUPS.find((group) => RULE_OF_GROUP[group] === rule) ?? 'serum'

/** Everything the page and the picture tell, from the simulated courses. Throws RangeError where there are too few of them to tell it. */
export function figuresOf(all: readonly Simulated[], seed: number): Figures {
  const stable = stableOf(all)
  const inGroup = (group: Group) => stable.filter(({ kind }) => kind.group === group)
  const crossings = crossedOf(all)
  const by = (rule: CriterionRule): Crossed[] => crossings.filter(({ patient }) => ruleOf(patient.kind) === rule)
  return {
    courses: all.length,
    seed,
    levels: STABLE_KINDS.map((kind) => ({
      kind,
      ...byReading(
        stable.filter((one) => one.kind.name === kind.name),
        kind.group,
      ),
    })),
    groups: GROUPS.flatMap((group) =>
      [null, ...INTERVALS].map((every) => {
        const patients = inGroup(group).filter((one) => every === null || one.every === every)
        return { group, every, ...byReading(patients, group) }
      }),
    ),
    years: GROUPS.map((group) => ({ group, rates: byYear(inGroup(group), said(RULE_OF_GROUP[group]), YEARS) })),
    others: GROUPS.flatMap((group) => OTHERS.map((rule) => ({ group, rule, flags: falseFlags(inGroup(group), said(rule)) }))),
    relapses: JUDGED_BY_LOWEST.map((rule) => ({
      rule,
      usual: delays(by(rule), said(rule)),
      plain: delays(by(rule), byLowest(rule)),
      any: delays(by(rule), saidByAny),
    })),
    drawn: all.length - stable.length,
    crossed: crossings.length,
    leads: [
      ...PD_RULES.flatMap((late) => [null, ...INTERVALS].map((every) => ({ early: PROJECTION, late, every }) as const)),
      ...(['pd-serum', 'pd-urine'] as const).map((late) => ({ early: 'light-chain-escape', late, every: null }) as const),
      ...PD_RULES.map((late) => ({ early: 'significant-relapse', late, every: null }) as const),
    ].map(({ early, late, every }) => {
      const among = by(late).filter(({ patient }) => every === null || patient.every === every)
      return { early, late, every, leads: leads(among, said(early), said(late)) }
    }),
    settings: PD_RULES.flatMap((rule) =>
      SETTINGS.map((setting, at) => ({
        setting,
        rule,
        falsely: falseFlags(inGroup(groupOf(rule)), underSetting(at)).any,
        leads: leads(by(rule), underSetting(at), said(rule)),
      })),
    ),
    readings: JUDGED_BY_LOWEST.flatMap((rule) =>
      READINGS.map(({ name, of }) => ({
        rule,
        name,
        falsely: falseFlags(inGroup(groupOf(rule)), of(rule)).confirmed,
        delays: delays(by(rule), of(rule)),
      })),
    ),
    large: PD_RULES.map((rule) => ({ rule, curve: largeRises(inGroup(groupOf(rule)), by(rule), rule) })),
  }
}
