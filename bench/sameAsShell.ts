import Database from 'better-sqlite3'

const SAME = `SELECT count(*) AS filed, sum(ours.patient_id = theirs.patient_id AND ours.code = theirs.code AND ours.value_text = theirs.value
    AND ours.unit_text = theirs.unit AND coalesce(ours.accession, '') = theirs.accession) AS same
  FROM result AS ours JOIN shell.result AS theirs ON theirs.rowid = ours.line - 1 WHERE ours.file_id = (SELECT max(id) FROM intake_file)`

/** Throws unless every row of the last file that was filed stands in the table of the shell with the same texts, and there are so many. */
export function sameAsShell(ours: string, theirs: string, filed: number): void {
  const db = new Database(ours, { readonly: true })
  db.prepare('ATTACH ? AS shell').run(theirs)
  const found = db.prepare<[], { filed: number; same: number }>(SAME).get()
  db.close()
  if (found?.filed !== filed || found.same !== filed)
    throw new Error(`Of ${filed} rows filed ${found?.filed} stand in the database, and ${found?.same} say what the shell imported.`)
}
