/** The head of a table: its columns by name; those of figures stand to the right, over their last digit. */
export function TableHead({ columns, figures = [] }: { readonly columns: readonly string[]; readonly figures?: readonly string[] }) {
  return (
    <thead>
      <tr>
        {columns.map((name) => (
          <th scope="col" key={name} className={figures.includes(name) ? 'number' : undefined}>
            {name}
          </th>
        ))}
      </tr>
    </thead>
  )
}
