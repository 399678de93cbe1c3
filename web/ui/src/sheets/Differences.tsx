import { useEffect, useState } from "react";
import { api, Lost, Refused } from "../api/client";
import type { DiffRow, DiffView } from "../api.gen";
import { Scroll } from "../bits/Scroll";
import { Surface } from "../drawing/Surface";
import { useSession, useView } from "../store/open";
import { when } from "./Builds";
import { useHistory } from "./Job";

/** Differences lays what changed since a revision over the drawing, with rows beside it. */
export function Differences() {
  const session = useSession();
  const view = useView();
  const history = useHistory();
  const [from, setFrom] = useState("");
  const [diff, setDiff] = useState<DiffView | null>(null);
  const [said, say] = useState("");
  const first = String(history?.at(-1)?.revision ?? "");
  const since = from === "" ? first : from;

  // biome-ignore lint/correctness/useExhaustiveDependencies: fetched again for every revision
  useEffect(() => {
    if (since === "") return;
    let current = true;
    api
      .diff(session.id, since, "")
      .then((found) => {
        if (!current) return;
        setDiff(found);
        say("");
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
  }, [session, since, view.revision]);

  return (
    <div className="diff-sheet">
      <div className="over-grid">
        <label>
          Changes since{" "}
          <select className="line short" value={since} onChange={(event) => setFrom(event.target.value)}>
            {(history ?? []).map((row) => (
              <option key={row.revision} value={row.revision}>
                revision {row.revision}, {row.title}, {when(row.at)}
              </option>
            ))}
          </select>
        </label>
        <span className="small">{said === "" ? `up to revision ${view.revision}` : said}</span>
      </div>
      <div className="diff-split">
        <Surface view="plan" against={since} still />
        <div className="pad">
          <section className="part">
            <h2>Figures</h2>
            <Rows rows={diff?.figures ?? []} none="No figure changed." />
          </section>
          <section className="part">
            <h2>Entries</h2>
            <Rows wrap rows={diff?.entries ?? []} none="Nothing was put in, taken out or changed." />
          </section>
        </div>
      </div>
    </div>
  );
}

function Rows({ rows, none, wrap = false }: { rows: DiffRow[]; none: string; wrap?: boolean }) {
  if (rows.length === 0) return <p className="none">{none}</p>;
  return (
    <Scroll label="differences">
      <table className={wrap ? "schedule wrap" : "schedule"}>
        <thead>
          <tr>
            <th>What</th>
            <th>How</th>
            <th className="num">Before</th>
            <th className="num">After</th>
            <th className="num">Change</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.path + row.name} className={row.kind}>
              <td>{row.name}</td>
              <td>{row.kind === "removed" ? "taken out" : row.kind === "added" ? "put in" : row.kind}</td>
              <td className="num">{row.before}</td>
              <td className="num">{row.after}</td>
              <td className="num strong">{row.change}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  );
}
