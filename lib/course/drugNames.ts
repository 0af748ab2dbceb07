import { ANTIBODIES } from './therapeuticAntibody.ts'

/** Drugs given for plasma cell disease, by INN in small letters (from memory). Nothing is decided by it: an unknown name is told, and kept as typed. */
const DRUGS: ReadonlySet<string> = new Set([
  ...ANTIBODIES,
  'arsenic trioxide',
  'belantamab mafodotin',
  'bendamustine',
  'bortezomib',
  'carfilzomib',
  'carmustine',
  'ciltacabtagene autoleucel',
  'cisplatin',
  'cyclophosphamide',
  'cytarabine',
  'dexamethasone',
  'doxorubicin',
  'elranatamab',
  'etoposide',
  'idecabtagene vicleucel',
  'iberdomide',
  'interferon alfa',
  'ixazomib',
  'lenalidomide',
  'linvoseltamab',
  'melphalan',
  'melphalan flufenamide',
  'mezigdomide',
  'panobinostat',
  'pegylated liposomal doxorubicin',
  'plerixafor',
  'pomalidomide',
  'prednisolone',
  'prednisone',
  'rituximab',
  'selinexor',
  'talquetamab',
  'teclistamab',
  'thalidomide',
  'treosulfan',
  'venetoclax',
  'vincristine',
])

/** Whether a drug's name is one of those Lowmark knows. */
export function isKnownDrug(name: string): boolean {
  return DRUGS.has(name.trim().toLowerCase())
}
