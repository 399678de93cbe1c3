import {
  type ClipboardEvent,
  type KeyboardEvent,
  useCallback,
  useEffect,
  useMemo,
  useRef,
  useState,
} from "react";
import { flushSync } from "react-dom";
import type { ColumnView, Edit, GridView, RowView } from "../api.gen";
import { goal } from "../form/jump";
import { useSession, useShown } from "../store/open";
import { Editor, type Taken } from "./Editor";
import { at, kept, moved, nextCell, type Place, range, starts } from "./nav";
import { over } from "./pending";
import { Row } from "./Row";
import { isTable, toTable } from "./table";

export interface GridProps {
  grid: GridView;
  label: string;
  /** the column new rows are named in */
  nameColumn: string;
  /** part names are offered while typing a name */
  parts?: boolean;
  selected?: string;
  onSelect?(row: string): void;
  onTable?(text: string, after: string): void;
  start?: boolean;
}

interface Editing {
  text: string;
  over: boolean;
}

/** Grid is a sheet of rows worked by keyboard alone. Every entry is a change posted at once. */
export function Grid(props: GridProps) {
  const { grid, nameColumn } = props;
  const session = useSession();
  const waiting = useShown((shown) => shown.waiting);
  const { rows, cells } = useMemo(() => over(grid, nameColumn, waiting), [grid, nameColumn, waiting]);
  const columns = grid.columns;
  const size = { rows: rows.length + (grid.canAdd ? 1 : 0), cols: columns.length };
  const nameAt = Math.max(
    0,
    columns.findIndex((column) => column.id === nameColumn),
  );
  const [asked, setPlace] = useState<Place>(() => at(0, nameAt));
  const [editing, setEditing] = useState<Editing | null>(null);
  const table = useRef<HTMLTableElement>(null);
  // until the reader goes to a cell, pasted rows go in at the end
  const went = useRef(false);
  const place = kept(asked, size);
  const spanned = range(place);
  const rowNow = rows[place.row];
  const onSelect = props.onSelect;

  const focusCell = useCallback((to: Place) => {
    const cell = table.current?.querySelector<HTMLElement>(`[data-at="${to.row},${to.col}"]`);
    cell?.focus({ preventScroll: true });
    cell?.scrollIntoView({ block: "nearest", inline: "nearest" });
  }, []);

  // drawn at once, so that the next key finds the focus where it belongs
  const goTo = useCallback(
    (to: Place) => {
      flushSync(() => {
        setPlace(to);
        setEditing(null);
      });
      focusCell(to);
    },
    [focusCell],
  );

  // biome-ignore lint/correctness/useExhaustiveDependencies: only when the sheet is opened
  useEffect(() => {
    if (props.start === true) focusCell(at(size.rows === 1 ? 0 : place.row, place.col));
  }, []);

  const rowId = rowNow?.id ?? "";
  useEffect(() => {
    if (rowId !== "") onSelect?.(rowId);
  }, [rowId, onSelect]);

  useEffect(() => {
    const look = () => {
      const wanted = goal.get();
      if (wanted === "") return;
      const nth = rows.findIndex(
        (row) => row.path !== "" && (wanted === row.path || wanted.startsWith(`${row.path}/`)),
      );
      const row = rows[nth];
      if (row === undefined) return;
      const [key, below] = wanted.slice(row.path.length + 1).split("/");
      const col = columns.findIndex((column) => column.id === (key === "place" ? below : key));
      goal.set("");
      went.current = true;
      requestAnimationFrame(() => goTo(at(nth, col < 0 ? nameAt : col)));
    };
    look();
    return goal.watch(look);
  }, [rows, columns, nameAt, goTo]);

  const typedIn = (row: RowView, column: ColumnView): string => {
    const waits = cells.get(`${row.id}/${column.id}`);
    if (waits !== undefined) return waits;
    const cell = row.cells[column.id];
    return cell === undefined ? "" : (cell.edit ?? (cell.derived === true ? "" : cell.text));
  };

  const put = (edits: Edit[], title: string) => {
    if (edits.length > 0) session.change(title, edits);
  };

  const cellEdit = (row: RowView, column: ColumnView, text: string): Edit[] =>
    column.fixed || typedIn(row, column) === text
      ? []
      : [{ kind: "cell", grid: grid.id, row: session.rowNow(row.id), column: column.id, text }];

  const commit = (taken: Taken, then: Place) => {
    went.current = true;
    const column = columns[place.col];
    if (column === undefined) return;
    if (rowNow !== undefined) put(cellEdit(rowNow, column, taken.text), `${column.title}: ${taken.text}`);
    else if (taken.text.trim() !== "") {
      const named = column.id === nameColumn;
      put(
        [
          {
            kind: "add",
            grid: grid.id,
            text: named ? taken.text : "",
            ...(taken.part === "" ? {} : { part: taken.part }),
            ...(named ? {} : { cells: { [column.id]: taken.text } }),
          },
        ],
        `add ${taken.text}`,
      );
    }
    goTo(then);
  };

  const clear = () => {
    const edits: Edit[] = [];
    for (let r = spanned.top; r <= spanned.bottom; r++)
      for (let c = spanned.left; c <= spanned.right; c++) {
        const row = rows[r];
        const column = columns[c];
        if (row !== undefined && column !== undefined) edits.push(...cellEdit(row, column, ""));
      }
    put(edits, "clear cells");
  };

  const fill = () => {
    const one = spanned.top === spanned.bottom;
    const from = rows[one ? spanned.top - 1 : spanned.top];
    if (from === undefined) return;
    const edits: Edit[] = [];
    for (let r = one ? spanned.top : spanned.top + 1; r <= spanned.bottom; r++)
      for (let c = spanned.left; c <= spanned.right; c++) {
        const row = rows[r];
        const column = columns[c];
        if (row !== undefined && column !== undefined)
          edits.push(...cellEdit(row, column, typedIn(from, column)));
      }
    put(edits, "fill down");
  };

  const remove = () => {
    const gone = rows
      .slice(spanned.top, spanned.bottom + 1)
      .filter((row) => row.locked === undefined || row.locked === "");
    put(
      gone.map((row) => ({ kind: "remove", grid: grid.id, row: session.rowNow(row.id) })),
      gone.length === 1
        ? `take out ${gone[0]?.cells[nameColumn]?.text ?? "row"}`
        : `take out ${gone.length} rows`,
    );
    goTo(at(spanned.top, place.col));
  };

  const again = () => {
    if (rowNow !== undefined)
      put([{ kind: "copy", grid: grid.id, row: session.rowNow(rowNow.id) }], "the same again");
  };

  const open = (text: string | null) => {
    const column = columns[place.col];
    if (column === undefined || column.fixed) return;
    const start = text ?? (rowNow === undefined ? "" : typedIn(rowNow, column));
    flushSync(() => setEditing({ text: start, over: text !== null }));
  };

  const pressed = (event: KeyboardEvent) => {
    if (editing !== null || event.altKey) return;
    const key = { key: event.key, ctrl: event.ctrlKey || event.metaKey, shift: event.shiftKey };
    const does = (act: () => void) => {
      event.preventDefault();
      act();
    };
    const to = moved(place, key, size);
    if (to !== null)
      return does(() => {
        went.current = true;
        goTo(to);
      });
    if (key.ctrl) {
      const low = key.key.toLowerCase();
      if (low === "d") return does(fill);
      if (low === "delete" || low === "backspace") return does(remove);
      if (low === "enter") return does(again);
      if (low === "a")
        return does(() =>
          setPlace({ row: rows.length - 1, col: columns.length - 1, anchor: { row: 0, col: 0 } }),
        );
      return;
    }
    if (key.key === "Enter" || key.key === "F2") return does(() => open(null));
    if (key.key === "Delete" || key.key === "Backspace") return does(clear);
    if (key.key === "Escape") return does(() => setPlace(at(place.row, place.col)));
    if (starts(key)) does(() => open(key.key));
  };

  const copy = (event: ClipboardEvent) => {
    if (editing !== null) return;
    event.preventDefault();
    const out = rows
      .slice(spanned.top, spanned.bottom + 1)
      .map((row) =>
        columns
          .slice(spanned.left, spanned.right + 1)
          .map((column) => cells.get(`${row.id}/${column.id}`) ?? row.cells[column.id]?.text ?? ""),
      );
    event.clipboardData.setData("text/plain", toTable(out));
  };

  const paste = (event: ClipboardEvent) => {
    if (editing !== null) return;
    event.preventDefault();
    const text = event.clipboardData.getData("text/plain");
    if (text === "") return;
    if (isTable(text)) {
      props.onTable?.(text, rowNow === undefined || !went.current ? "" : session.rowNow(rowNow.id));
      return;
    }
    const column = columns[place.col];
    if (column === undefined || column.fixed) return;
    commit({ text: text.trim(), part: "" }, at(place.row, place.col));
  };

  return (
    <div className="grid-box">
      <table
        className="grid"
        role="grid"
        aria-label={props.label}
        aria-rowcount={size.rows + 1}
        aria-colcount={columns.length}
        aria-multiselectable="true"
        ref={table}
        onKeyDown={pressed}
        onCopy={copy}
        onPaste={paste}
        onMouseDown={(event) => {
          const spot = spotOf(event.target);
          if (spot === null || (editing !== null && spot.row === place.row && spot.col === place.col)) return;
          if (event.target instanceof HTMLInputElement) return;
          event.preventDefault();
          went.current = true;
          (document.activeElement as HTMLElement | null)?.blur?.();
          goTo(event.shiftKey ? { ...spot, anchor: place.anchor } : at(spot.row, spot.col));
        }}
        onDoubleClick={() => open(null)}
      >
        <thead>
          <tr aria-rowindex={1}>
            <th className="no" scope="col">
              <span className="hidden">number</span>
            </th>
            {columns.map((column) => (
              <th
                key={column.id}
                scope="col"
                className={`${column.right ? "right" : ""}${column.id === nameColumn ? " name" : ""}`}
                style={{ minWidth: `${column.width * 0.58 + 1.2}em` }}
                title={column.help}
              >
                {column.title}
                {unitOf(column) !== "" && <span className="unit"> {unitOf(column)}</span>}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, r) => (
            <Row
              key={session.firstName(row.id)}
              row={row}
              r={r}
              columns={columns}
              nameColumn={nameColumn}
              cells={cells}
              active={r === place.row ? place.col : -1}
              left={r >= spanned.top && r <= spanned.bottom ? spanned.left : -1}
              right={r >= spanned.top && r <= spanned.bottom ? spanned.right : -2}
              shown={props.selected === row.id}
              editor={
                editing !== null && r === place.row ? (
                  <CellEditor
                    {...{ editing, place, size, columns, nameColumn, commit, goTo }}
                    parts={props.parts === true}
                    isNew={false}
                  />
                ) : null
              }
            />
          ))}
          {grid.canAdd && (
            <Row
              row={blank}
              r={rows.length}
              columns={columns}
              nameColumn={nameColumn}
              cells={cells}
              active={place.row === rows.length ? place.col : -1}
              left={-1}
              right={-2}
              shown={false}
              editor={
                editing !== null && place.row === rows.length ? (
                  <CellEditor
                    {...{ editing, place, size, columns, nameColumn, commit, goTo }}
                    parts={props.parts === true}
                    isNew
                  />
                ) : null
              }
            />
          )}
        </tbody>
      </table>
    </div>
  );
}

/** unitOf is the unit to be written behind a title that does not say it itself. */
function unitOf(column: ColumnView): string {
  const unit = column.unit ?? "";
  return column.title.split(/[\s,]+/).includes(unit) ? "" : unit;
}

const blank: RowView = { id: "", number: 0, cells: {}, kind: "blank", path: "" };

function spotOf(target: EventTarget): { row: number; col: number } | null {
  if (!(target instanceof Element)) return null;
  const text = target.closest("[data-at]")?.getAttribute("data-at");
  if (text === null || text === undefined) return null;
  const [row = 0, col = 0] = text.split(",").map(Number);
  return { row, col };
}

interface CellEditorProps {
  editing: Editing;
  place: Place;
  size: { rows: number; cols: number };
  columns: ColumnView[];
  nameColumn: string;
  parts: boolean;
  isNew: boolean;
  commit(taken: Taken, then: Place): void;
  goTo(place: Place): void;
}

function CellEditor({
  editing,
  place,
  size,
  columns,
  nameColumn,
  parts,
  isNew,
  commit,
  goTo,
}: CellEditorProps) {
  const column = columns[place.col];
  if (column === undefined) return null;
  return (
    <Editor
      column={column}
      start={editing.text}
      over={editing.over}
      parts={parts && column.id === nameColumn}
      onDone={(taken, how) => {
        if (how === "tab") return commit(taken, nextCell(place, false, size));
        if (how === "back") return commit(taken, nextCell(place, true, size));
        if (how === "up") return commit(taken, at(Math.max(0, place.row - 1), place.col));
        if (how === "stay") return commit(taken, at(place.row, place.col));
        commit(taken, at(isNew ? place.row + 1 : Math.min(place.row + 1, size.rows - 1), place.col));
      }}
      onLeave={() => goTo(at(place.row, place.col))}
    />
  );
}
