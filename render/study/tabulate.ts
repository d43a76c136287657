/** A table with its columns in an order: heads and cells are found by the names of the columns, so that they agree. */
export const tabulate = <Column extends string>(
  columns: readonly Column[],
  heads: Readonly<Record<Column, string>>,
  rows: readonly Readonly<Record<Column, string>>[],
) => ({
  heads: columns.map((column) => heads[column]),
  rows: rows.map((row) => columns.map((column) => row[column])),
});
