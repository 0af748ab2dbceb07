import Link from 'next/link'

/** A patient by identifier, with a way to the page. */
export function PatientLink({ id }: { readonly id: string }) {
  return (
    <Link href={`/patients/${encodeURIComponent(id)}`} prefetch={false}>
      <bdi>{id}</bdi>
    </Link>
  )
}
