import { useEffect, useState } from "react";
import { api } from "../api/client";
import type { BuildView, FormSection, HistoryRow } from "../api.gen";
import { Verdict } from "../bits/Verdict";
import { Form, More, Section, useSetter } from "../form/Form";
import { goToField } from "../form/jump";
import { useSession, useView } from "../store/open";
import { toBuild } from "../store/route";
import { when } from "./Builds";
import { Findings } from "./Findings";

/** asked tells what was asked for and decided from what the build is called. */
const asked = (section: FormSection) => section.id !== "build";

/** Job is sheet 0: what was promised, where it stands, what to measure next. */
export function Job() {
  const view = useView();
  const setter = useSetter();
  return (
    <div className="pad">
      <div className="cols">
        <Form>
          <div className="job-form">
            {view.job.filter(asked).map((section) => (
              <Section key={section.id} section={section} setter={setter} />
            ))}
          </div>
          <p className="doings below">
            <More list="job/promises" title="another promise">
              Another promise
            </More>
            <More list="job/decisions" title="another decision">
              Another decision waiting
            </More>
          </p>
        </Form>
        <Concerns view={view} />
        <MeasureNext view={view} />
        <section className="part most">
          <h2>Findings</h2>
          <Findings findings={view.findings} />
        </section>
        <div className="third stack">
          <Status view={view} />
          <LastChanges />
        </div>
        <Form>
          <div className="job-form">
            {view.job
              .filter((section) => !asked(section))
              .map((section) => (
                <Section key={section.id} section={section} setter={setter} />
              ))}
          </div>
        </Form>
        <Basis view={view} />
      </div>
    </div>
  );
}

/** Concerns are one line each; those nobody has begun share one. */
function Concerns({ view }: { view: BuildView }) {
  const begun = view.concerns.filter((row) => row.verdict !== "not-begun");
  const others = view.concerns.filter((row) => row.verdict === "not-begun");
  return (
    <section className="part half">
      <h2>Concerns</h2>
      <table className="schedule concerns">
        <tbody>
          {begun.map((row) => (
            <tr key={row.id}>
              <th scope="row">{row.name}</th>
              <td className="v">
                <Verdict verdict={row.verdict} />
              </td>
              <td>{row.text}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {others.length > 0 && (
        <p className="waiting">
          <Verdict verdict="not-begun" />
          <span>{others.map((row) => row.name).join(", ")}</span>
        </p>
      )}
    </section>
  );
}

function MeasureNext({ view }: { view: BuildView }) {
  const session = useSession();
  const rows = view.measure.slice(0, 5);
  return (
    <section className="part half">
      <h2>Measure next</h2>
      {rows.length === 0 ? (
        <p className="none">Nothing that could be measured would change a verdict.</p>
      ) : (
        <ol className="lines numbered">
          {rows.map((row) => (
            <li key={row.text}>
              <span className="grow">
                {row.subject.path === "" ? (
                  row.text
                ) : (
                  <button
                    type="button"
                    className="figure"
                    onClick={() => goToField(session, row.subject.path)}
                  >
                    {row.text}
                  </button>
                )}
              </span>
              <span className="mono">{row.share}</span>
            </li>
          ))}
        </ol>
      )}
    </section>
  );
}

function Status({ view }: { view: BuildView }) {
  return (
    <section className="part">
      <h2>Issue status of the papers</h2>
      <p className="says small">As far as computed here; each paper has its own.</p>
      <PaperStatuses view={view} />
    </section>
  );
}

/** PaperStatuses lists how far each paper may be relied on; papers alike share a line. */
export function PaperStatuses({ view }: { view: BuildView }) {
  const alike = new Map<string, { names: string[]; status: string; why: string[] }>();
  for (const { name, status, why } of view.papers) {
    const key = JSON.stringify([status, why]);
    const row = alike.get(key);
    if (row === undefined) alike.set(key, { names: [name], status, why });
    else row.names.push(name);
  }
  return (
    <ul className="lines">
      {[...alike].map(([key, { names, status, why }]) => (
        <li key={key}>
          <b>{status}</b>: {names.join(", ").toLowerCase()}
          {why.length > 0 && <span className="small"> Not higher, because {why.join("; ")}.</span>}
        </li>
      ))}
    </ul>
  );
}

/** useHistory fetches the revisions again whenever there is a new one. */
export function useHistory(): HistoryRow[] | null {
  const session = useSession();
  const view = useView();
  const [rows, setRows] = useState<HistoryRow[] | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: fetched again for every revision
  useEffect(() => {
    let current = true;
    api
      .history(session.id)
      .then((history) => {
        if (current) setRows(history.rows ?? []);
      })
      .catch(() => undefined);
    return () => {
      current = false;
    };
  }, [session, view.revision]);
  return rows;
}

function LastChanges() {
  const session = useSession();
  const rows = useHistory();
  return (
    <section className="part">
      <h2>Last changes</h2>
      {rows === null && <p className="none">Fetching…</p>}
      {rows !== null && rows.length === 0 && <p className="none">Nothing was changed yet.</p>}
      <ul className="lines">
        {(rows ?? []).slice(0, 8).map((row) => (
          <li key={row.revision}>
            <span className="mono rev">{row.revision}</span>
            <span className="grow">
              {row.title}
              <span className="small"> {when(row.at)}</span>
            </span>
          </li>
        ))}
      </ul>
      {rows !== null && rows.length > 1 && (
        <p className="says">
          <a href={toBuild(session.id, "differences")}>Lay them over the drawing</a>
        </p>
      )}
    </section>
  );
}

function Basis({ view }: { view: BuildView }) {
  const session = useSession();
  return (
    <>
      <section className="part half">
        <h2>Assumed, because not given</h2>
        {view.assumed.length === 0 && <p className="none">Nothing is assumed.</p>}
        <ul className="lines">
          {view.assumed.map((row) => (
            <li key={row.path + row.text}>
              <span className="grow">
                {row.path === "" ? (
                  row.text
                ) : (
                  <button type="button" className="figure" onClick={() => goToField(session, row.path)}>
                    {row.text}
                  </button>
                )}
                <span className="small"> {row.from}</span>
              </span>
            </li>
          ))}
        </ul>
      </section>
      <div className="half stack">
        <section className="part">
          <h2>Judged by</h2>
          <ul className="lines">
            {view.basis.map((row) => (
              <li key={row}>{row}</li>
            ))}
            {view.sources.map((row) => (
              <li key={row.key + row.at}>
                <span className="grow">
                  {row.title}
                  {row.at !== "" && <span className="small"> {row.at}</span>}
                </span>
                <span className="small">{row.evidence}</span>
              </li>
            ))}
          </ul>
        </section>
        {view.cautions.length > 0 && (
          <section className="part">
            <h2>Caution</h2>
            <ul className="lines">
              {view.cautions.map((row) => (
                <li key={row}>{row}</li>
              ))}
            </ul>
          </section>
        )}
      </div>
    </>
  );
}
