import type { ReactNode } from 'react'

/** A box that scrolls when its table is wider or longer than it: named, and within reach of the keyboard. */
export function Scroll({ className, named, children }: { readonly className: string; readonly named: string; readonly children: ReactNode }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must take the focus, or the keyboard cannot scroll it (WCAG 2.1.1)
    <section className={className} aria-label={named} tabIndex={0}>
      {children}
    </section>
  )
}
