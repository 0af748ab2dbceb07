import Link from 'next/link'

/** A patient by identifier, with a way to the page; its address names nobody. */
export function PatientLink({ id, address }: { readonly id: string; readonly address: string }) {
  return (
    <Link href={`/patients/${address}`} prefetch={false}>
      <bdi>{id}</bdi>
    </Link>
  )
}
