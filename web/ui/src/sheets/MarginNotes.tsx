import { useRef } from "react";
import type { FindingView } from "../api.gen";
import { Verdict } from "../bits/Verdict";
import { goToField } from "../form/jump";
import { useSession, useShown, useView } from "../store/open";

interface Props {
  notes: FindingView[];
  /** findings raised but not drawn */
  rest: number;
  selected: string;
  row: string;
  onSelect(key: string): void;
}

/** MarginNotes are at most seven findings beside the drawing, worst first; still while something moves. */
export function MarginNotes({ notes, rest, selected, row, onSelect }: Props) {
  const moving = useShown((shown) => shown.preview !== null);
  const still = useRef(notes);
  if (!moving) still.current = notes;
  const shown = moving ? still.current : notes;
  return (
    <aside className="notes" aria-label="Margin notes">
      {shown.length === 0 && (
        <p className="none">Nothing to note: no limit is near, as far as computed here.</p>
      )}
      <ol>
        {shown.map((note, nth) => (
          <li
            key={note.key}
            className={`${note.verdict}${note.key === selected ? " chosen" : ""}`}
            data-note={note.key}
          >
            <span className="no" aria-hidden="true">
              {nth + 1}
            </span>
            <div>
              <button
                type="button"
                className="note"
                aria-expanded={note.key === selected}
                onClick={() => onSelect(note.key)}
              >
                <Verdict verdict={note.verdict} />{" "}
                <span className="title">
                  {note.advisory === true ? "advice · " : ""}
                  {note.title}
                </span>
                <span className="text">{note.text}</span>
              </button>
              {note.key === selected && <More note={note} />}
            </div>
          </li>
        ))}
      </ol>
      {rest > 0 && <p className="small">and {rest} more, on sheet 0</p>}
      <Chosen row={row} />
    </aside>
  );
}

function More({ note }: { note: FindingView }) {
  const session = useSession();
  const missing = note.missing ?? [];
  return (
    <div className="more small">
      {note.slip !== undefined && note.slip !== "" && (
        <button type="button" className="word" onClick={() => session.slip.set(note.slip ?? "")}>
          Show the working
        </button>
      )}
      {missing.map((one) => (
        <button key={one.path} type="button" className="word" onClick={() => goToField(session, one.path)}>
          Fill in {one.name}
        </button>
      ))}
      {(note.moves ?? []).map((move) => (
        <button
          key={move.text}
          type="button"
          className="do"
          onClick={() => session.change(move.text, move.edits)}
        >
          {move.text.charAt(0).toUpperCase() + move.text.slice(1)}
        </button>
      ))}
      {note.advice !== undefined && note.advice !== "" && note.advice !== note.moves?.[0]?.text && (
        <p>{note.advice}</p>
      )}
      {note.caution !== undefined && note.caution !== "" && <p>{note.caution}</p>}
      <p>{[note.rule, note.basis, note.evidence].filter((word) => word !== "").join(" · ")}</p>
    </div>
  );
}

/** Chosen is the row of the kit that is selected on the drawing. */
function Chosen({ row }: { row: string }) {
  const session = useSession();
  const { kit } = useView();
  const found = kit.rows.find((one) => one.id === row);
  if (found === undefined) return null;
  const cells = kit.columns.filter((column) => (found.cells[column.id]?.text ?? "") !== "");
  const [first, ...others] = cells;
  return (
    <section className="chosen-row" aria-label="Selected item">
      <h3>
        {found.number > 0 && <span className="no">{found.number}</span>}
        {first !== undefined && found.cells[first.id]?.text}
      </h3>
      <dl>
        {others.slice(0, 8).map((column) => (
          <div key={column.id}>
            <dt>{column.title}</dt>
            <dd className={found.cells[column.id]?.derived === true ? "derived" : ""}>
              {withUnit(found.cells[column.id]?.text ?? "", column.unit)}
            </dd>
          </div>
        ))}
      </dl>
      {found.locked !== undefined && found.locked !== "" && (
        <p className="small">Not offered for moving: {found.locked}</p>
      )}
      <p className="doings">
        <button type="button" className="word" onClick={() => goToField(session, found.path)}>
          Go to its row
        </button>
        <button type="button" className="word" title="F2" onClick={() => session.entry.set(found.path)}>
          Every field
        </button>
      </p>
    </section>
  );
}

/** withUnit writes the unit behind a bare number; a text that says more is left as it is. */
function withUnit(text: string, unit: string | undefined): string {
  return unit !== undefined && unit !== "" && /^[\d\s.,−-]+$/.test(text) ? `${text} ${unit}` : text;
}
