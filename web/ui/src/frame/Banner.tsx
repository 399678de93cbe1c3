import type { BuildView, Marked } from "../api.gen";
import { goToField, sheetOf } from "../form/jump";
import { useSession, useShown } from "../store/open";
import { useLate } from "./late";

/** Banner says what stands in the way: no server, a draft, a refusal. It is one line. */
export function Banner({ sheet }: { sheet: string }) {
  const session = useSession();
  const away = useShown((shown) => shown.away && shown.view !== null);
  const waiting = useShown((shown) => shown.waiting.length);
  const said = useShown((shown) => shown.said);
  const refused = useShown((shown) => shown.refused);
  const late = useLate(away);
  if (late)
    return (
      <div className="banner" role="status">
        <span>
          <b>The server does not answer.</b> Figures are of the revision shown.{" "}
          {waiting > 0
            ? `${waiting === 1 ? "One change is" : `${waiting} changes are`} kept in this browser and sent again when it answers.`
            : "What you type is kept in this browser."}
        </span>
      </div>
    );
  const first = refused[0];
  if (said !== "" && first !== undefined && first.text === said)
    return first.path === "" || sheetOf(first.path) === sheet ? <OneRefused refused={refused} /> : <div />;
  if (said !== "")
    return (
      <div className="banner" role="alert">
        <span>{said}</span>
        <button type="button" className="word" onClick={() => session.shown.patch({ said: "" })}>
          Put away
        </button>
      </div>
    );
  return <div />;
}

/** OneRefused says what could not be read of the first of them, leads to it, and goes on to the next. */
function OneRefused({ refused }: { refused: Marked[] }) {
  const session = useSession();
  const row = useShown((shown) => rowOf(shown.view, refused[0]?.path ?? ""));
  const [first, ...others] = refused;
  if (first === undefined) return null;
  const next = others[0];
  const hint = first.hint ?? "";
  return (
    <div className="banner" role="alert">
      <span>
        {row !== "" && <b>{row}: </b>}
        {first.text}
        {hint !== "" && `; ${hint}`}
      </span>
      <span className="doings">
        {first.path !== "" && (
          <button type="button" className="word" onClick={() => goToField(session, first.path)}>
            {row === "" ? "Go to it" : "Go to the row"}
          </button>
        )}
        {next !== undefined && (
          <button
            type="button"
            className="word"
            onClick={() => session.shown.patch({ refused: [...others, first], said: next.text })}
          >
            {others.length} more
          </button>
        )}
        <button type="button" className="word" onClick={() => session.shown.patch({ said: "", refused: [] })}>
          Put away
        </button>
      </span>
    </div>
  );
}

/** rowOf is the name of the row a path belongs to. */
function rowOf(view: BuildView | null, path: string): string {
  if (view === null) return "";
  const { people, zones, tanks, carried } = view.loading;
  for (const row of [view.kit, people, zones, tanks, carried].flatMap((grid) => grid.rows))
    if (row.path !== "" && (path === row.path || path.startsWith(`${row.path}/`)))
      return row.cells.name?.text ?? "";
  return "";
}
