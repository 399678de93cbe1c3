import { useEffect, useId, useMemo, useRef, useState } from "react";
import { type Command, commands, finding } from "../commands";
import { goToField } from "../form/jump";
import { useCell } from "../store/cell";
import { useSession, useView } from "../store/open";

interface Row {
  id: string;
  title: string;
  keys: string;
  kind: string;
  run(): void;
}

/** Finder lists every command, and every item of the build, by the words typed. */
export function Finder() {
  const open = useCell(finding);
  return open ? <Open /> : null;
}

function Open() {
  const session = useSession();
  const view = useView();
  const [words, setWords] = useState("");
  const [at, setAt] = useState(0);
  const list = useId();
  const box = useRef<HTMLDialogElement>(null);
  const all = useMemo<Row[]>(() => {
    const items = view.kit.rows.map((row) => ({
      id: `item-${row.id}`,
      title: row.cells.name?.text ?? row.id,
      keys: "",
      kind: row.number > 0 ? `item ${row.number}` : "item",
      run: () => {
        session.selected.set(row.id);
        goToField(session, row.path);
      },
    }));
    return [...commands.filter((one) => one.id !== "find").map((one) => asRow(one, session)), ...items];
  }, [session, view.kit.rows]);
  const rows = found(all, words);
  const now = Math.min(at, rows.length - 1);

  useEffect(() => {
    box.current?.showModal();
  }, []);
  useEffect(() => {
    document.getElementById(`${list}-${now}`)?.scrollIntoView({ block: "nearest" });
  }, [list, now]);

  const close = () => finding.set(false);
  const run = (row: Row | undefined) => {
    close();
    row?.run();
  };
  return (
    <dialog
      ref={box}
      className="leaf finder"
      aria-label="Find a command or an item"
      onClose={close}
      onClick={(event) => {
        if (event.target === box.current) close();
      }}
      onKeyDown={(event) => {
        const by = { ArrowDown: 1, ArrowUp: -1, PageDown: 8, PageUp: -8 }[event.key];
        if (by !== undefined) {
          event.preventDefault();
          setAt(Math.max(0, Math.min(rows.length - 1, now + by)));
        } else if (event.key === "Enter") {
          event.preventDefault();
          run(rows[now]);
        }
        event.stopPropagation();
      }}
    >
      <input
        className="line"
        role="combobox"
        aria-expanded="true"
        aria-controls={list}
        aria-activedescendant={rows.length === 0 ? undefined : `${list}-${now}`}
        aria-label="words of the command or the item"
        placeholder="words of a command or an item"
        value={words}
        autoComplete="off"
        spellCheck={false}
        onChange={(event) => {
          setWords(event.target.value);
          setAt(0);
        }}
      />
      <div className="rows" role="listbox" id={list} aria-label="Commands and items" tabIndex={-1}>
        {rows.map((row, nth) => (
          <div
            key={row.id}
            id={`${list}-${nth}`}
            role="option"
            tabIndex={-1}
            aria-selected={nth === now}
            onPointerMove={() => setAt(nth)}
            onClick={() => run(row)}
            onKeyDown={() => undefined}
          >
            <span>{row.title}</span>
            <span className="small">{row.keys === "" ? row.kind : row.keys}</span>
          </div>
        ))}
      </div>
      {rows.length === 0 && <p className="none">Nothing is called that.</p>}
    </dialog>
  );
}

function asRow(command: Command, session: Parameters<Command["run"]>[0]): Row {
  return {
    id: command.id,
    title: command.title,
    keys: command.keys.map(said).join(" or "),
    kind: "command",
    run: () => command.run(session),
  };
}

const said = (keys: string) =>
  keys
    .split("+")
    .map((key) => key.charAt(0).toUpperCase() + key.slice(1))
    .join("+");

/** found keeps the rows that have every word typed, those that begin with the first one before others. */
export function found<T extends { title: string; kind: string }>(rows: readonly T[], words: string): T[] {
  const wanted = words.toLowerCase().split(/\s+/).filter(Boolean);
  const has = (row: T) => {
    const text = `${row.title} ${row.kind}`.toLowerCase();
    return wanted.every((word) => text.includes(word));
  };
  const begins = (row: T) =>
    wanted[0] !== undefined && row.title.toLowerCase().startsWith(wanted[0]) ? 0 : 1;
  return rows
    .filter(has)
    .map((row, nth) => ({ row, nth }))
    .sort((a, b) => begins(a.row) - begins(b.row) || a.nth - b.nth)
    .slice(0, 60)
    .map(({ row }) => row);
}
