import { useCell } from "../store/cell";
import { useSession, useShown, useView } from "../store/open";
import { light, switchLight } from "./light";

/** Tools says what was kept, and takes back. */
export function Tools() {
  const session = useSession();
  const view = useView();
  const waiting = useShown((shown) => shown.waiting.length);
  const away = useShown((shown) => shown.away);
  const now = useCell(light);
  return (
    <div className="tools">
      <span className="kept small" role="status">
        {kept(waiting, away)}
      </span>
      <button
        type="button"
        className="word"
        disabled={view.canUndo === undefined || view.canUndo === "" || waiting > 0}
        title={
          view.canUndo === undefined || view.canUndo === ""
            ? "nothing of yours to take back"
            : `take back: ${view.canUndo} (Ctrl+Z)`
        }
        onClick={() => void session.undo()}
      >
        Undo
      </button>
      {view.canRedo !== undefined && view.canRedo !== "" && (
        <button
          type="button"
          className="word"
          title={`make again: ${view.canRedo} (Ctrl+Y)`}
          onClick={() => void session.undo(true)}
        >
          Redo
        </button>
      )}
      <button type="button" className="word" onClick={switchLight}>
        {now === "day" ? "Dark" : "Light"}
        <span className="hidden"> colours</span>
      </button>
    </div>
  );
}

function kept(waiting: number, away: boolean): string {
  if (waiting === 0) return away ? "no server" : "all kept";
  const many = waiting === 1 ? "1 change" : `${waiting} changes`;
  return away ? `${many} kept here` : `keeping ${many}`;
}
