import type { ReactNode } from "react";
import { useState } from "react";
import { api } from "../api/client";
import { useCell } from "../store/cell";
import { useSession, useView } from "../store/open";
import { PaperStatuses, useHistory } from "./Job";

const fitPapers = [
  {
    file: "hole-register.pdf",
    name: "Hole register",
    says: "each hole with two dimensions one can touch, who looked, edge and sealant",
  },
  {
    file: "templates.pdf",
    name: "Hole templates",
    says: "at true size on tiled pages, with a bar to check them by",
  },
  {
    file: "fixing-map.pdf",
    name: "Fixing map",
    says: "ribs, blocks and runs of each wall, before it is lined",
  },
  {
    file: "states.pdf",
    name: "Drawings of every state",
    says: "plan, elevations and sections in travel, camp and night",
  },
];

const drawings: [view: string, name: string][] = [
  ["plan", "plan"],
  ["left", "from the left"],
  ["right", "from the right"],
  ["rear", "from behind"],
  ["wall-left", "left wall from inside"],
  ["wall-right", "right wall from inside"],
  ["section", "cross-section"],
];

/** Papers is what can be printed, with its issue status. */
export function Papers() {
  const session = useSession();
  const view = useView();
  const state = useCell(session.state);
  const history = useHistory() ?? [];
  const [from, setFrom] = useState("");
  const first = history.at(-1)?.revision;
  const since = from === "" ? String(history[1]?.revision ?? first ?? "") : from;
  const drawing = (kind: string, side: string) =>
    api.paper(session.id, `drawing.${kind}`, { view: side, state });
  return (
    <div className="pad">
      <div className="cols">
        <section className="part most">
          <h2>Papers of revision {view.revision}</h2>
          <table className="schedule papers">
            <tbody>
              <Paper
                name="Mass statement"
                says="plan, cases, limits, margins, basis, spreads, assumptions, sources"
              >
                <a href={api.paper(session.id, "mass-statement.pdf")} download>
                  PDF
                </a>
              </Paper>
              <Paper name="Loading placard" says="what may be loaded where, for the van">
                <a href={api.paper(session.id, "placard.pdf")} download>
                  PDF
                </a>
              </Paper>
              <Paper name="Change slip" says="half a page, for signature">
                <label>
                  since revision{" "}
                  <select
                    className="line short"
                    value={since}
                    onChange={(event) => setFrom(event.target.value)}
                  >
                    {history.map((row) => (
                      <option key={row.revision} value={row.revision}>
                        {row.revision}
                      </option>
                    ))}
                  </select>
                </label>{" "}
                {since !== "" && (
                  <a href={api.paper(session.id, "change.pdf", { from: since, to: view.revision })} download>
                    PDF
                  </a>
                )}
              </Paper>
              {fitPapers.map((paper) => (
                <Paper key={paper.file} name={paper.name} says={paper.says}>
                  <a href={api.paper(session.id, paper.file)} download>
                    PDF
                  </a>
                </Paper>
              ))}
              {drawings.map(([side, name]) => (
                <Paper key={side} name={`Drawing, ${name}`} says={`to scale, ${state} state`}>
                  {["pdf", "svg", "dxf"].map((kind) => (
                    <a key={kind} href={drawing(kind, side)} download>
                      {kind.toUpperCase()}
                    </a>
                  ))}
                </Paper>
              ))}
              <Paper name="Build file" says="the text everything is computed from">
                <a href={api.exported(session.id)} download={`${session.id}.yaml`}>
                  YAML
                </a>
              </Paper>
            </tbody>
          </table>
        </section>
        <section className="part third">
          <h2>Issue status of the papers</h2>
          <p className="says small">As far as computed here; each paper carries its own.</p>
          <PaperStatuses view={view} />
          <p className="says small">
            {view.program} · build {view.hash.slice(0, 12)}
          </p>
        </section>
      </div>
    </div>
  );
}

function Paper({ name, says, children }: { name: string; says: string; children: ReactNode }) {
  return (
    <tr>
      <th scope="row">
        {name}
        <span className="small"> {says}</span>
      </th>
      <td className="get">{children}</td>
    </tr>
  );
}
