import { useEffect, useState } from "react";
import { api, Lost, Refused } from "../api/client";
import type { Choice, Sentence, SwapView } from "../api.gen";
import { Scroll } from "../bits/Scroll";
import { Verdict } from "../bits/Verdict";
import { useSession, useView } from "../store/open";

/**
 * SwapVan puts another base van under the same items: a class of van, or the van of another build. The two stand side by
 * side first; then it is one change.
 */
export function SwapVan() {
  const session = useSession();
  const { revision } = useView();
  const [open, setOpen] = useState(false);
  const [vans, setVans] = useState<Choice[]>([]);
  const [van, setVan] = useState<Choice | null>(null);
  const [found, setFound] = useState<SwapView | null>(null);
  const [said, say] = useState("");
  useEffect(() => {
    if (!open) return;
    let current = true;
    Promise.all([api.choices(), api.builds()])
      .then(([choices, list]) => {
        if (!current) return;
        const builds = (list.builds ?? []).filter((row) => row.id !== session.id);
        setVans([
          ...choices.classes,
          ...builds.map((row) => ({ id: row.id, text: `the van of ${row.name}` })),
        ]);
      })
      .catch(() => setVans([]));
    return () => {
      current = false;
    };
  }, [open, session]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: worked out again for every revision
  useEffect(() => {
    setFound(null);
    say("");
    if (van === null) return;
    let current = true;
    api
      .swap(session.id, van.id)
      .then((view) => {
        if (current) setFound(view);
      })
      .catch((reason: unknown) => {
        if (!current) return;
        if (reason instanceof Lost) say("The server does not answer.");
        else if (reason instanceof Refused) say(reason.problem.text);
        else throw reason;
      });
    return () => {
      current = false;
    };
  }, [session, van, revision]);
  if (!open)
    return (
      <button type="button" className="word" onClick={() => setOpen(true)}>
        Swap the base van under this kit…
      </button>
    );
  return (
    <>
      <label>
        Swap to{" "}
        <select
          className="line short"
          value={van?.id ?? ""}
          onChange={(event) => setVan(vans.find((one) => one.id === event.target.value) ?? null)}
        >
          <option value="">choose a van</option>
          {vans.map((one) => (
            <option key={one.id} value={one.id}>
              {one.text}
            </option>
          ))}
        </select>
      </label>{" "}
      {van !== null && found !== null && (
        <button
          type="button"
          className="word"
          onClick={() => {
            session.change(`swap the base van: ${van.text}`, [{ kind: "van", text: van.id }]);
            setVan(null);
            setOpen(false);
          }}
        >
          Put this van under the kit
        </button>
      )}{" "}
      <button
        type="button"
        className="word"
        onClick={() => {
          setVan(null);
          setOpen(false);
        }}
      >
        Leave it
      </button>
      {said !== "" && <p role="alert">{said}</p>}
      {van !== null && found !== null && <SideBySide found={found} />}
    </>
  );
}

function SideBySide({ found }: { found: SwapView }) {
  return (
    <Scroll label="two vans side by side">
      <table className="schedule">
        <thead>
          <tr>
            <th>The same kit and plan</th>
            <th className="num">{found.diff.from}</th>
            <th className="num">{found.diff.to}</th>
            <th className="num">Change</th>
          </tr>
        </thead>
        <tbody>
          {found.diff.figures.map((row) => (
            <tr key={row.name}>
              <td>{row.name}</td>
              <td className="num">{row.before}</td>
              <td className="num">{row.after}</td>
              <td className="num">{row.change}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <h3>It would say</h3>
      <Sentences rows={found.after} />
      {found.notes.length > 0 && (
        <ul className="lines">
          {found.notes.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
      )}
    </Scroll>
  );
}

function Sentences({ rows }: { rows: Sentence[] }) {
  return (
    <ul className="lines">
      {rows.map((row) => (
        <li key={row.key}>
          <span className="grow">{row.text}</span> <Verdict verdict={row.verdict} />
        </li>
      ))}
    </ul>
  );
}
