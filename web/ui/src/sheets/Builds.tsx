import { useCallback, useEffect, useRef, useState } from "react";
import { api, Lost, Refused } from "../api/client";
import type { BuildRow, Choice } from "../api.gen";
import { Mark, verdictWord } from "../bits/Verdict";
import { light, switchLight } from "../frame/light";
import { Refs } from "../frame/Refs";
import { useCell } from "../store/cell";
import { go, toBuild } from "../store/route";

/** Builds is the first screen: the drawing register of the workshop. */
export function Builds() {
  const [rows, setRows] = useState<BuildRow[] | null>(null);
  const [said, say] = useState("");
  const [put, showPut] = useState(false);
  const [demos, setDemos] = useState<Choice[]>([]);
  const now = useCell(light);
  const file = useRef<HTMLInputElement>(null);

  const told = useCallback((reason: unknown) => {
    if (reason instanceof Refused)
      say(
        reason.problem.hint === undefined
          ? reason.problem.text
          : `${reason.problem.text}: ${reason.problem.hint}`,
      );
    else if (reason instanceof Lost) say("The server does not answer. This page keeps asking.");
    else throw reason;
  }, []);

  const load = useCallback(async () => {
    try {
      const list = await api.builds(put);
      setRows(list.builds ?? []);
      say((was) => (was.startsWith("The server") ? "" : was));
    } catch (reason) {
      told(reason);
      if (reason instanceof Lost) setTimeout(() => void load(), 3000);
    }
  }, [put, told]);

  useEffect(() => {
    document.title = "All builds · Berthwright";
    api
      .choices()
      .then((found) => setDemos(found.demos ?? []))
      .catch(() => setDemos([]));
    void load();
  }, [load]);

  useEffect(() => {
    const pressed = (event: KeyboardEvent) => {
      if (event.target instanceof HTMLInputElement || event.ctrlKey || event.altKey || event.metaKey) return;
      if (event.key === "n") {
        event.preventDefault();
        go("#/new");
      }
    };
    window.addEventListener("keydown", pressed);
    return () => window.removeEventListener("keydown", pressed);
  }, []);

  const make = (kind: string, from: string, name: string) => {
    api
      .make({ kind, from, name })
      .then((view) => go(toBuild(view.id)))
      .catch(told);
  };

  const bring = async (picked: File | undefined) => {
    if (picked === undefined) return;
    try {
      const view = await api.importText(await picked.text());
      go(toBuild(view.id));
    } catch (reason) {
      told(reason);
    }
    if (file.current !== null) file.current.value = "";
  };

  return (
    <div className="sheet register">
      <Refs />
      <header className="head">
        <h1 className="home">Berthwright</h1>
        <span className="index" />
        <div className="tools">
          <button type="button" className="word" onClick={switchLight}>
            {now === "day" ? "Dark" : "Light"}
            <span className="hidden"> colours</span>
          </button>
        </div>
      </header>
      {said === "" ? (
        <div />
      ) : (
        <div className="banner" role="alert">
          {said}
        </div>
      )}
      <main className="work" aria-label="All builds">
        <div className="pad">
          <div className="top">
            <h2 className="large">Builds</h2>
            <div className="doings">
              <a className="do first" href="#/new">
                New build <kbd>N</kbd>
              </a>
              <button type="button" className="do" onClick={() => file.current?.click()}>
                Import a file…
              </button>
              <input
                ref={file}
                type="file"
                className="hidden"
                tabIndex={-1}
                aria-label="Build file to import"
                accept=".yaml,.yml,text/yaml"
                onChange={(event) => void bring(event.target.files?.[0])}
              />
            </div>
          </div>
          {rows === null && said === "" && <p className="none">Fetching the register…</p>}
          {rows !== null && rows.length === 0 && <Empty />}
          {rows !== null && rows.length > 0 && (
            <ol className="builds">
              {rows.map((row) => (
                <One
                  key={row.id}
                  row={row}
                  onAgain={() => make("duplicate", row.id, `${row.name}, again`)}
                  onPut={() => void api.remove(row.id).then(load).catch(told)}
                  onBack={() => void api.restore(row.id).then(load).catch(told)}
                />
              ))}
            </ol>
          )}
          <div className="foot doings">
            {demos.length > 0 && <span className="small">Demo builds, invented:</span>}
            {demos.map((demo) => (
              <button
                key={demo.id}
                type="button"
                className="word"
                title={demo.note}
                onClick={() => make("demo", demo.id, "")}
              >
                open a fresh {demo.text}
              </button>
            ))}
            <span className="grow" />
            <button type="button" className="word" onClick={() => showPut(!put)}>
              {put ? "Hide what was put away" : "Show what was put away"}
            </button>
          </div>
        </div>
      </main>
    </div>
  );
}

function Empty() {
  return (
    <p className="opening">
      No build yet. Start one from an enquiry: a class of van, the people, and six rows that stand in for the
      kit. Or import a build file.
    </p>
  );
}

interface OneProps {
  row: BuildRow;
  onAgain(): void;
  onPut(): void;
  onBack(): void;
}

function One({ row, onAgain, onPut, onBack }: OneProps) {
  return (
    <li className={row.deleted === true ? "put" : ""}>
      <div className="who">
        {row.deleted === true ? (
          <span className="name">{row.name}</span>
        ) : (
          <a className="name" href={toBuild(row.id)}>
            {row.name}
          </a>
        )}
        <span className="small">
          {[row.customer, row.stage, `${row.items} rows`]
            .filter((word) => word !== undefined && word !== "")
            .join(" · ")}
        </span>
        <span className="small">
          revision {row.revision}, {when(row.changed)}
          {row.draft === true && " · an unreadable draft is kept"}
        </span>
      </div>
      <ul className="says">
        {(row.deciding ?? []).slice(0, 3).map((claim) => (
          <li key={claim.key} className={`verdict-line ${claim.verdict}`}>
            <Mark verdict={claim.verdict} />
            <span className="hidden">{verdictWord(claim.verdict)}: </span>
            <span>{claim.text}</span>
          </li>
        ))}
      </ul>
      <div className="does">
        {row.deleted === true ? (
          <button type="button" className="word" onClick={onBack}>
            Bring back<span className="hidden"> {row.name}</span>
          </button>
        ) : (
          <>
            <button type="button" className="word" onClick={onAgain}>
              Duplicate<span className="hidden"> {row.name}</span>
            </button>
            <a href={api.exported(row.id)} download={`${row.id}.yaml`}>
              Export<span className="hidden"> {row.name}</span>
            </a>
            <button type="button" className="word" onClick={onPut}>
              Put away<span className="hidden"> {row.name}</span>
            </button>
          </>
        )}
      </div>
    </li>
  );
}

/** when says a moment in the reader's own way; it is never printed on paper. */
export function when(moment: string): string {
  const date = new Date(moment);
  if (Number.isNaN(date.getTime())) return moment;
  return date.toLocaleString("en-GB", {
    day: "numeric",
    month: "short",
    year: "numeric",
    hour: "2-digit",
    minute: "2-digit",
  });
}
