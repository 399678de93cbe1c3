import { useId, useState } from "react";
import { useCell } from "../store/cell";
import { useSession, useView } from "../store/open";

/** Trades turns the layers of the drawing on and off, each with how many items it holds. */
export function Trades() {
  const session = useSession();
  const { kit } = useView();
  const veiled = useCell(session.veiled);
  const [open, setOpen] = useState(false);
  const id = useId();
  const column = kit.columns.find((one) => one.id === "group");
  const words = new Map((column?.choices ?? []).map((one) => [one.text, one.id]));
  const count = new Map<string, number>();
  for (const row of kit.rows) {
    const cell = row.cells.group;
    const trade = cell?.edit ?? words.get(cell?.text ?? "") ?? cell?.text ?? "";
    if (trade !== "") count.set(trade, (count.get(trade) ?? 0) + 1);
  }
  const trades = (column?.choices ?? []).filter((one) => count.has(one.id));
  const set = (trade: string, on: boolean) => {
    const next = new Set(veiled);
    if (on) next.delete(trade);
    else next.add(trade);
    session.veiled.set(next);
  };
  return (
    <span className="trades">
      <button
        type="button"
        className="word"
        aria-expanded={open}
        aria-controls={id}
        onClick={() => setOpen(!open)}
      >
        Trades{veiled.size > 0 ? `, ${veiled.size} left out` : ""}
      </button>
      {open && (
        <div
          className="trades-list"
          id={id}
          role="group"
          aria-label="Trades shown"
          onKeyDown={(event) => {
            if (event.key === "Escape") setOpen(false);
          }}
        >
          {trades.map((one) => (
            <label key={one.id}>
              <input
                type="checkbox"
                checked={!veiled.has(one.id)}
                onChange={(event) => set(one.id, event.target.checked)}
              />
              {one.text} <span className="small">{count.get(one.id)}</span>
            </label>
          ))}
          <span className="doings">
            <button type="button" className="word" onClick={() => session.veiled.set(new Set())}>
              all
            </button>
            <button
              type="button"
              className="word"
              onClick={() => session.veiled.set(new Set(trades.map((one) => one.id)))}
            >
              none
            </button>
          </span>
        </div>
      )}
    </span>
  );
}
