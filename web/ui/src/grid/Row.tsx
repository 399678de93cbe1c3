import { memo, type ReactNode } from "react";
import type { Cell as CellView, ColumnView, RowView } from "../api.gen";

interface RowProps {
  row: RowView;
  r: number;
  columns: ColumnView[];
  nameColumn: string;
  cells: ReadonlyMap<string, string>;
  active: number;
  left: number;
  right: number;
  shown: boolean;
  editor: ReactNode;
}

const kindWords: Record<string, string> = {
  removed: "taken out",
  "in-ticket": "in the ticket",
  allowance: "allowance",
  waiting: "being kept",
};

export const Row = memo(function Row(props: RowProps) {
  const { row, r, columns } = props;
  const isBlank = row.kind === "blank";
  return (
    <tr aria-rowindex={r + 2} className={`${row.kind}${props.shown ? " shown" : ""}`} data-row={row.id}>
      <th scope="row" className="no">
        {isBlank ? "+" : row.number > 0 ? row.number : ""}
      </th>
      {columns.map((column, c) => {
        const cell = row.cells[column.id];
        const waits = isBlank ? undefined : props.cells.get(`${row.id}/${column.id}`);
        const isActive = c === props.active;
        const mark = waits === undefined ? cell?.mark : undefined;
        return (
          <td
            key={column.id}
            role="gridcell"
            data-at={`${r},${c}`}
            tabIndex={isActive ? 0 : -1}
            aria-selected={c >= props.left && c <= props.right}
            aria-readonly={column.fixed || undefined}
            aria-invalid={mark === undefined || mark === "" ? undefined : true}
            className={cellClass(column, cell, mark, props, c, waits)}
            title={mark === undefined || mark === "" ? undefined : mark}
          >
            {isActive && props.editor !== null ? (
              props.editor
            ) : (
              <Words {...{ row, column, cell, waits, mark, isBlank }} name={column.id === props.nameColumn} />
            )}
          </td>
        );
      })}
    </tr>
  );
});

function cellClass(
  column: ColumnView,
  cell: CellView | undefined,
  mark: string | undefined,
  { left, right, active, nameColumn }: RowProps,
  c: number,
  waits: string | undefined,
): string {
  return [
    column.right ? "right" : "",
    column.id === nameColumn ? "name" : "",
    cell?.derived === true && waits === undefined ? "derived" : "",
    mark === undefined || mark === "" ? "" : "bad",
    c >= left && c <= right && (left !== right || c !== active) ? "in" : "",
    waits === undefined ? "" : "waits",
  ]
    .filter((word) => word !== "")
    .join(" ");
}

interface WordsProps {
  row: RowView;
  column: ColumnView;
  cell: CellView | undefined;
  waits: string | undefined;
  mark: string | undefined;
  isBlank: boolean;
  name: boolean;
}

function Words({ row, column, cell, waits, mark, isBlank, name }: WordsProps) {
  const raw = waits ?? cell?.text ?? "";
  const text =
    waits === undefined ? raw : ((column.choices ?? []).find((one) => one.id === raw)?.text ?? raw);
  if (isBlank) return name ? <span className="hint">type a name, or paste rows</span> : null;
  const kind = name ? kindWords[row.kind] : undefined;
  return (
    <>
      {text}
      {kind !== undefined && <span className="kind"> {kind}</span>}
      {name && row.locked !== undefined && row.locked !== "" && (
        <span className="kind" title={row.locked}>
          {" "}
          fixed
        </span>
      )}
      {mark !== undefined && mark !== "" && <span className="hidden">: {mark}</span>}
    </>
  );
}
