const ONE = ['patientId', 'fromId'] as const
const MANY = ['patients', 'beside'] as const

/** Every patient an entry names, each once: whom it is about first, then whoever else was shown or changed with it. `event` is the stored text. */
export function patientsNamed({ patientId, event }: { readonly patientId: string | null; readonly event: string }): readonly string[] {
  const told = JSON.parse(event) as Readonly<Record<string, unknown>>
  const many = MANY.flatMap((key) => (Array.isArray(told[key]) ? (told[key] as readonly unknown[]) : []))
  const all = [patientId, ...ONE.map((key) => told[key]), ...many]
  return [...new Set(all.filter((id): id is string => typeof id === 'string'))]
}
