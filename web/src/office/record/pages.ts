// Finding rows, and pages of them.
export const ROWS_A_PAGE = 50;

/** Rows in whose words every word that is sought stands. */
export function sought<T>(rows: T[], words: string, wordsOf: (row: T) => string): T[] {
  const parts = words.toLocaleLowerCase().split(/\s+/).filter(Boolean);
  if (parts.length === 0) return rows;
  return rows.filter((row) => {
    const text = wordsOf(row).toLocaleLowerCase();
    return parts.every((part) => text.includes(part));
  });
}

/** One page; a page that is beyond the last is the last. */
export function pageOf<T>(rows: T[], page: number, size = ROWS_A_PAGE): { rows: T[]; page: number; pages: number } {
  const pages = Math.max(1, Math.ceil(rows.length / size));
  const at = Math.min(Math.max(0, page), pages - 1);
  return { rows: rows.slice(at * size, (at + 1) * size), page: at, pages };
}
