import { useState } from "react";
import type { NoteView } from "../api.gen";
import type { Stage } from "../drawing/stage";
import { useCell } from "../store/cell";
import { newId } from "../store/me";
import { useSession, useView } from "../store/open";

/** Pinned is the list of notes for people; one that has a place is shown there. */
export function Pinned({ onShow }: { onShow(note: NoteView): void }) {
  const session = useSession();
  const { notes, kit } = useView();
  const selected = useCell(session.selected);
  const [text, setText] = useState("");
  const row = kit.rows.find((one) => one.id === selected);
  const name = row?.cells.name?.text ?? "";
  const add = () => {
    const words = text.trim();
    if (words === "") return;
    const item = row === undefined ? "" : `, item: ${JSON.stringify(row.id)}`;
    const value = `{id: note-${newId().slice(0, 8)}, text: ${JSON.stringify(words)}${item}}`;
    session.change("a note", [{ kind: "ops", ops: [{ op: "insert", path: "notes", value }] }]);
    setText("");
  };
  return (
    <aside className="notes pinned" aria-label="Notes for people">
      <form
        onSubmit={(event) => {
          event.preventDefault();
          add();
        }}
      >
        <label htmlFor="new-note">{name === "" ? "A note for people" : `A note on ${name}`}</label>
        <textarea
          id="new-note"
          className="line"
          rows={2}
          value={text}
          onChange={(event) => setText(event.target.value)}
          onKeyDown={(event) => {
            if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) add();
          }}
        />
        <p className="doings">
          <button type="submit" className="do" disabled={text.trim() === ""}>
            Pin it
          </button>
          <span className="small">
            {name === "" ? "select an item to pin it there" : "pinned to the selected item"}
          </span>
        </p>
      </form>
      {notes.length === 0 && <p className="none">No note is pinned.</p>}
      <ol>
        {notes.map((note, nth) => (
          <li key={note.path}>
            <span className="no pin" aria-hidden="true">
              {letter(nth)}
            </span>
            <div>
              <button
                type="button"
                className="note"
                onClick={() => {
                  const item = /^items\/([^/]+)/.exec(note.on.path)?.[1];
                  if (item !== undefined) session.selected.set(item);
                  onShow(note);
                }}
              >
                <span className="title">{note.on.name === "" ? "note" : note.on.name}</span>
                <span className="text">{note.text}</span>
              </button>
              <p className="small doings">
                {[note.by, note.date].filter(Boolean).join(", ")}
                <button type="button" className="word" onClick={() => session.entry.set(note.path)}>
                  change
                </button>
                <button
                  type="button"
                  className="word"
                  onClick={() =>
                    session.change("take a note off", [
                      { kind: "ops", ops: [{ op: "remove", path: note.path }] },
                    ])
                  }
                >
                  take off
                </button>
              </p>
            </div>
          </li>
        ))}
      </ol>
    </aside>
  );
}

const letter = (nth: number) =>
  String.fromCharCode(65 + (nth % 26)) + (nth < 26 ? "" : String(Math.floor(nth / 26)));

/** Pins are the notes on the drawing, each a letter where it is pinned. */
export function Pins({ stage, moved, onOpen }: { stage(): Stage | null; moved: number; onOpen(): void }) {
  const session = useSession();
  const { notes } = useView();
  if (moved < 0) return null;
  return (
    <div className="pins">
      {notes.flatMap((note, nth) => {
        const row = /^items\/([^/]+)/.exec(note.on.path)?.[1];
        const drawn = row === undefined ? [] : (stage()?.placesOf(row) ?? []);
        const spots =
          drawn.length > 0 ? drawn : (stage()?.places(note.on.xUm, note.on.yUm, note.on.zUm) ?? []);
        return spots.slice(0, 2).map(([x, y], which) => (
          <button
            key={`${note.path} ${which === 0 ? "a" : "b"}`}
            type="button"
            className="pin"
            tabIndex={-1}
            title={note.text}
            aria-label={`note ${letter(nth)}: ${note.text}`}
            style={{ left: `${x}px`, top: `${y}px` }}
            onClick={() => {
              if (row !== undefined) session.selected.set(row);
              onOpen();
            }}
          >
            {letter(nth)}
          </button>
        ));
      })}
    </div>
  );
}
