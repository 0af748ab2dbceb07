export type HeavyChain = 'G' | 'A' | 'M' | 'D' | 'E'
export type LightChain = 'kappa' | 'lambda'

/** One band. `heavy` is null for a free light chain. */
export interface Band {
  readonly heavy: HeavyChain | null
  readonly light: LightChain | null
}

/** What an immunofixation text says. `unread` keeps the text for a person: nothing is guessed from it. */
export type Immunofixation =
  | { readonly reading: 'negative' }
  | { readonly reading: 'positive'; readonly bands: readonly Band[] }
  | { readonly reading: 'cannot-exclude' }
  | { readonly reading: 'unread'; readonly text: string }
