// What was typed and is not acknowledged yet, laid over the rows the server sent. It is read from the
// queue of changes, so it is no second model: it goes when they go.

import type { ChangeRequest, GridView, RowView } from "../api.gen";
import { fresh } from "../store/queue";

export interface Over {
  rows: RowView[];
  /** "row/column" to text */
  cells: ReadonlyMap<string, string>;
}

const nothing: ReadonlyMap<string, string> = new Map();

export function over(grid: GridView, nameColumn: string, waiting: readonly ChangeRequest[]): Over {
  if (waiting.length === 0) return { rows: grid.rows, cells: nothing };
  const cells = new Map<string, string>();
  let rows = grid.rows;
  for (const change of waiting) {
    let nth = 0;
    for (const edit of change.edits) {
      if (edit.grid !== grid.id) continue;
      if (edit.kind === "cell") cells.set(`${edit.row}/${edit.column}`, edit.text ?? "");
      if (edit.kind === "remove") rows = rows.filter((row) => row.id !== edit.row);
      if (edit.kind === "add") {
        const made = provisional(fresh(change.id, nth), { ...edit.cells, [nameColumn]: edit.text ?? "" });
        const after = edit.row === undefined ? -1 : rows.findIndex((row) => row.id === edit.row);
        rows = after < 0 ? [...rows, made] : rows.toSpliced(after + 1, 0, made);
      }
      if (edit.kind === "add" || edit.kind === "copy") nth += 1;
    }
  }
  return { rows, cells };
}

function provisional(id: string, typed: Record<string, string>): RowView {
  return {
    id,
    number: 0,
    kind: "waiting",
    path: "",
    cells: Object.fromEntries(Object.entries(typed).map(([column, text]) => [column, { text }])),
  };
}
