import type { ReactNode } from 'react'

/** The way from a model's name to its page. */
export function ModelLink({ model, children }: { readonly model: string; readonly children: ReactNode }) {
  return <a href={`/models/${model}`}>{children}</a>
}
