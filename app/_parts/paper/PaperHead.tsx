import Link from 'next/link'
import './paper.css'
import { PrintNow } from './PrintNow.tsx'

/** What stands above a sheet on the screen alone: the way back, and printing it. */
export function PaperHead({ back, says }: { readonly back: string; readonly says: string }) {
  return (
    <p className="exports no-print">
      <PrintNow />
      <Link href={back} prefetch={false}>
        {says}
      </Link>
    </p>
  )
}
