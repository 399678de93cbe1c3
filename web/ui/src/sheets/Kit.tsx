import { useState } from "react";
import { Grid } from "../grid/Grid";
import { PasteDialog } from "../grid/PasteDialog";
import { useCell } from "../store/cell";
import { useSession, useView } from "../store/open";
import { PlanChest } from "./PlanChest";

/** nameOf finds the column rows are named in. */
export function nameOf(columns: { id: string; kind: string }[]): string {
  const named = columns.find((column) => column.id === "what" || column.id === "name");
  return (named ?? columns.find((column) => column.kind === "text") ?? columns[0])?.id ?? "";
}

/** Kit is the twin of the drawing: one row per item. */
export function Kit() {
  const view = useView();
  const session = useSession();
  const selected = useCell(session.selected);
  const [pasted, setPasted] = useState<{ text: string; after: string } | null>(null);
  const chest = useCell(session.chest);
  const kit = view.kit;

  return (
    <div className="kit">
      <div className="over-grid">
        <p>
          <b>{kit.total}</b>
          <span className="small keys">
            Enter types · Ctrl+V pastes rows · Ctrl+Enter the same again · Ctrl+D fills down · Ctrl+Delete
            takes out
          </span>
        </p>
        <span className="doings">
          <button
            type="button"
            className="word"
            disabled={selected === ""}
            title="the form of the selected row"
            onClick={() => session.entry.set(`items/${selected}`)}
          >
            Every field
          </button>
          <button
            type="button"
            className="word"
            aria-expanded={chest}
            onClick={() => session.chest.set(!chest)}
          >
            Plan chest
          </button>
        </span>
      </div>
      <Grid
        grid={kit}
        label="Kit"
        nameColumn={nameOf(kit.columns)}
        parts
        start
        selected={selected}
        onSelect={session.selected.set}
        onTable={(text, after) => setPasted({ text, after })}
      />
      {pasted !== null && (
        <PasteDialog grid={kit} text={pasted.text} after={pasted.after} onClose={() => setPasted(null)} />
      )}
      {chest && <PlanChest onClose={() => session.chest.set(false)} />}
    </div>
  );
}
