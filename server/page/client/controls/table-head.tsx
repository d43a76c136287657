/** The head of a table: one row of column names. */
export const TableHead = ({ columns }: { readonly columns: readonly string[] }) => (
  <thead>
    <tr>
      {columns.map((column) => (
        <th key={column} scope="col">
          {column}
        </th>
      ))}
    </tr>
  </thead>
);
