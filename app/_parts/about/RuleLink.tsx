/** The way from a finding to the page of its rule. A plain link: it works in the browser's part of the list as well. */
export function RuleLink({ rule }: { readonly rule: string }) {
  return <a href={`/rules/${encodeURIComponent(rule)}`}>What this rule asks, and what it cannot see</a>
}
