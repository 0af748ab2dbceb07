/** How a source (a laboratory, an interface) writes what its rows leave unsaid. Without a profile nothing is assumed. */
export interface SourceProfile {
  /** The unit (UCUM) of a code, as received or LOINC, where a row names none. */
  readonly units: Readonly<Record<string, string>>
  readonly decimalSign: 'point' | 'comma'
  /** In which order a date of three numbers is written. */
  readonly dayOrder: 'year-first' | 'day-first' | 'month-first'
  /** IANA name: the zone of a time without an offset. Null: such a time is not read. */
  readonly timeZone: string | null
  /** Whether a message about nobody known makes a patient. */
  readonly addsPatients: boolean
}

/** What a person once decided a text of this source means: a code its LOINC code, a unit its UCUM code, an identifier the patient's. */
export interface SourceMapping {
  readonly id: number
  readonly kind: 'code' | 'unit' | 'patient'
  /** The text as received, compared exactly but for blanks around. */
  readonly received: string
  /** Of a unit: the code it stood beside, as received. Null for the other kinds. */
  readonly ofCode: string | null
  readonly meaning: string
}

/** All that is known of the source of a file. */
export interface SourceKnowledge {
  /** Changes with every change of the profile or a mapping. */
  readonly version: string
  readonly profile: SourceProfile | null
  readonly mappings: readonly SourceMapping[]
}

/** A source nobody said anything about. */
export const NOTHING_KNOWN: SourceKnowledge = { version: '', profile: null, mappings: [] }
