import type { ModelId, ModelPage } from '../../models/index.ts'
import type { RuleId, Window } from '../../rules/index.ts'

/** A number with how far it can be relied on, in words. */
export interface NumberView {
  readonly says: string
  /** "Published: IMWG 2014 ...", "(from memory)", "(common practice)" or "(ours)". */
  readonly mark: string
  /** What the clinic has chosen in its place, "45 instead of 60"; empty where nothing. */
  readonly chosen: readonly string[]
}

export interface RuleView {
  readonly id: RuleId
  readonly title: string
  readonly section: string
  readonly asks: string
  readonly source: string
  readonly runsIn: string
  readonly windows: readonly { readonly window: Window; readonly when: string }[]
  readonly numbers: readonly NumberView[]
  readonly how: readonly string[]
  readonly cannotSee: readonly string[]
  readonly elseCauses: readonly string[]
  /** True where what else can cause it is medical knowledge, and so marked as common practice. */
  readonly causesAreMedical: boolean
}

export type RuleInIndex = Pick<RuleView, 'id' | 'title' | 'asks' | 'windows'>

/** Every rule by section, and every model. */
export interface RulesIndex {
  readonly sections: readonly { readonly title: string; readonly intro: string; readonly rules: readonly RuleInIndex[] }[]
  readonly models: readonly { readonly id: ModelId; readonly title: string; readonly asks: string; readonly runsIn: string }[]
}

export interface ModelView extends Omit<ModelPage, 'numbers'> {
  readonly id: ModelId
  readonly numbers: readonly NumberView[]
}
