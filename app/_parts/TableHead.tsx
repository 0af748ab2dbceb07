/** The head of a table: its columns by name. */
export function TableHead({ columns }: { readonly columns: readonly string[] }) {
  return (
    <thead>
      <tr>
        {columns.map((name) => (
          <th scope="col" key={name}>
            {name}
          </th>
        ))}
      </tr>
    </thead>
  )
}
