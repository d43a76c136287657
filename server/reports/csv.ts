/** A cell of CSV (RFC 4180); one that a spreadsheet would take for a formula is kept from it: a bar's number may begin so. */
const csvCell = (text: string): string => {
  const plain = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(plain) ? `"${plain.replaceAll('"', '""')}"` : plain;
};

/** A row of a table as a line of comma-separated values, without its end. */
export const csvLine = (row: readonly string[]): string => row.map(csvCell).join(',');
