/** `INSERT` of these columns, by position, of so many rows. */
export function insertSql(table: string, columns: readonly string[], rows = 1): string {
  const row = `(${columns.map(() => '?').join(', ')})`
  return `INSERT INTO ${table} (${columns.join(', ')}) VALUES ${Array.from({ length: rows }, () => row).join(', ')}`
}
