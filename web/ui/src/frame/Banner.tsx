import { useSession, useShown } from "../store/open";
import { useLate } from "./late";

/** Banner says what stands in the way: no server, a draft, a refusal. It is one line. */
export function Banner() {
  const session = useSession();
  const away = useShown((shown) => shown.away && shown.view !== null);
  const waiting = useShown((shown) => shown.waiting.length);
  const said = useShown((shown) => shown.said);
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
