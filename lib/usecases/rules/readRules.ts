import type { Thresholds } from '../../course/index.ts'
import { chosenInstead, type MarkedNumber, MODEL_IDS, markText, modelPage } from '../../models/index.ts'
import { RULE_IDS, RUNS_IN_WORDS, type RuleId, ruleAbout, rulePage, ruleSections, ruleTitle } from '../../rules/index.ts'
import type { Call, Outcome } from '../call.ts'
import { planInForce } from '../plan/planInForce.ts'
import { refusedUnlessMay } from '../refuse.ts'
import type { ModelView, NumberView, RulesIndex, RuleView } from './views.ts'

/** A marked number as a page shows it, beside what the clinic has chosen in its place. */
function numberView(number: MarkedNumber, thresholds: Thresholds): NumberView {
  return { says: number.says, mark: markText(number), chosen: chosenInstead(number, thresholds) }
}

function viewOf(id: RuleId, thresholds: Thresholds): RuleView {
  const { runsIn, numbers, ...page } = rulePage(id)
  const section = ruleSections().find(({ rules }) => rules.includes(id))
  return {
    id,
    title: ruleTitle(id),
    section: section?.title ?? '',
    causesAreMedical: section?.causesAreMedical ?? true,
    ...ruleAbout(id),
    ...page,
    runsIn: RUNS_IN_WORDS[runsIn],
    numbers: numbers.map((number) => numberView(number, thresholds)),
  }
}

/** Every rule by section, and every model. It shows no patient, so reading it is no entry of the log; a refusal is. */
export async function readRules(call: Call): Promise<Outcome<RulesIndex>> {
  const refused = await refusedUnlessMay(call, 'rules.read', 'rules')
  if (refused !== null) return refused
  const sections = ruleSections().map(({ title, intro, rules }) => ({
    title,
    intro,
    rules: rules.map((id) => ({ id, title: ruleTitle(id), asks: ruleAbout(id).asks, windows: rulePage(id).windows })),
  }))
  const models = MODEL_IDS.map((id) => {
    const { title, asks, runsIn } = modelPage(id)
    return { id, title, asks, runsIn }
  })
  return { ok: true, value: { sections, models } }
}

/** The page of one rule; `not-found` for an id no rule has. */
export async function readRule(call: Call, ruleId: string): Promise<Outcome<RuleView>> {
  const refused = await refusedUnlessMay(call, 'rules.read', 'rules')
  if (refused !== null) return refused
  const id = RULE_IDS.find((known) => known === ruleId)
  if (id === undefined) return { ok: false, kind: 'not-found', reason: 'No rule has this name.' }
  return { ok: true, value: viewOf(id, planInForce(call.store.reader, call.today).thresholds) }
}

/** The page of one model; `not-found` for an id no model has. */
export async function readModel(call: Call, model: string): Promise<Outcome<ModelView>> {
  const refused = await refusedUnlessMay(call, 'rules.read', 'rules')
  if (refused !== null) return refused
  const id = MODEL_IDS.find((known) => known === model)
  if (id === undefined) return { ok: false, kind: 'not-found', reason: 'No model has this name.' }
  const { numbers, ...page } = modelPage(id)
  const { thresholds } = planInForce(call.store.reader, call.today)
  return { ok: true, value: { id, ...page, numbers: numbers.map((number) => numberView(number, thresholds)) } }
}
