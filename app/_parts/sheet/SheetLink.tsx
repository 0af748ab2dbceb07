import Link from 'next/link'

/** The one way from the patient page to what can be handed to the patient. */
export function SheetLink({ address }: { readonly address: string }) {
  return (
    <p className="sheet-way no-print">
      <Link href={`/patients/${address}/sheet`} prefetch={false}>
        Sheet for the patient
      </Link>
    </p>
  )
}
