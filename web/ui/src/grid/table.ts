// Text to and from spreadsheets: cells apart by tabs, rows by line ends, odd cells in quotes.

const odd = /[\t\r\n"]/;

export function toTable(rows: readonly (readonly string[])[]): string {
  return rows
    .map((row) => row.map((cell) => (odd.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell)).join("\t"))
    .join("\n");
}

/** isTable tells whether pasted text is more than one cell. */
export function isTable(text: string): boolean {
  return /[\t\n]/.test(text.replace(/[\r\n]+$/, ""));
}
