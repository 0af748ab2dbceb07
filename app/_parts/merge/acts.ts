import type { ComparisonView } from '../../../lib/usecases/index.ts'
import type { FormAct } from '../useKeptForm.ts'

type Sentence = { readonly sentence: string }

/** The server actions of merges, by what they do. */
export interface MergeActs {
  readonly compare: FormAct<ComparisonView>
  readonly propose: FormAct<{ readonly mergeId: number }>
  readonly confirm: FormAct<Sentence>
  readonly decline: FormAct<Sentence>
  readonly end: FormAct<Sentence>
}
