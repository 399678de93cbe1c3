import { Fragment, type ReactNode, useEffect, useRef, useState } from "react";
import { api, Lost, Refused } from "../api/client";
import type { Slip, SlipLine, SlipTable } from "../api.gen";
import { Scroll } from "../bits/Scroll";
import { goToField } from "../form/jump";
import { useCell } from "../store/cell";
import { useSession, useShown } from "../store/open";

/** SlipPanel shows the working behind one figure, beside the sheet. */
export function SlipPanel() {
  const session = useSession();
  const key = useCell(session.slip);
  const state = useCell(session.state);
  const revision = useShown((shown) => shown.view?.revision ?? 0);
  const [slip, setSlip] = useState<Slip | null>(null);
  const [trouble, setTrouble] = useState("");
  const close = useRef<HTMLButtonElement>(null);
  const before = useRef<Element | null>(null);

  // biome-ignore lint/correctness/useExhaustiveDependencies: the slip is fetched again for every revision
  useEffect(() => {
    if (key === "") {
      setSlip(null);
      return;
    }
    let current = true;
    api
      .slip(session.id, key, state)
      .then((found) => {
        if (!current) return;
        setSlip(found);
        setTrouble("");
      })
      .catch((reason: unknown) => {
        if (!current) return;
        if (reason instanceof Lost) setTrouble("The server does not answer; the working comes from there.");
        else if (reason instanceof Refused) setTrouble(reason.problem.text);
        else throw reason;
      });
    return () => {
      current = false;
    };
  }, [key, state, revision, session]);

  useEffect(() => {
    if (key === "") {
      if (before.current instanceof HTMLElement) before.current.focus();
      before.current = null;
      return;
    }
    before.current ??= document.activeElement;
    close.current?.focus();
  }, [key]);

  if (key === "") return null;
  const old = slip !== null && slip.revision !== revision;
  return (
    <aside
      className="side slip"
      aria-label="Calc slip"
      onKeyDown={(event) => {
        if (event.key !== "Escape") return;
        event.stopPropagation();
        session.slip.set("");
      }}
    >
      <header>
        <div>
          <h2>{slip?.key === key || slip !== null ? slip?.title : "Working"}</h2>
          {slip !== null && (
            <p className={`small${old ? " ageing" : ""}`}>
              revision {slip.revision}
              {old && ", being worked out again"} · build {slip.hash.slice(0, 8)}
            </p>
          )}
        </div>
        <button type="button" className="word" ref={close} onClick={() => session.slip.set("")}>
          Close
        </button>
      </header>
      <div className="inner">
        {trouble !== "" && <p className="none">{trouble}</p>}
        {slip === null && trouble === "" && <p className="none">Fetching the working…</p>}
        {slip !== null && <Body slip={slip} />}
      </div>
    </aside>
  );
}

function Body({ slip }: { slip: Slip }) {
  return (
    <>
      <ol>
        {(slip.lines ?? []).map((line) => (
          <Step key={`${line.symbol} ${line.says}`} line={line} />
        ))}
      </ol>
      {(slip.tables ?? []).map((table) => (
        <Table key={table.title} table={table} />
      ))}
      {(slip.notes ?? []).map((note) => (
        <p key={note} className="small">
          {note}
        </p>
      ))}
    </>
  );
}

function Step({ line }: { line: SlipLine }) {
  const session = useSession();
  if (line.kind === "head")
    return (
      <li className="step head">
        <h3>{line.says}</h3>
      </li>
    );
  return (
    <li className="step">
      <span className="says">{line.says}</span>
      <span className="work">
        {line.symbol !== "" && <Maths text={line.symbol} symbol />}
        {line.formula !== undefined && line.formula !== "" && (
          <>
            {" "}
            = <Maths text={line.formula} />
          </>
        )}
        {line.numbers !== undefined && line.numbers !== "" && (
          <>
            <br />= {line.numbers}
          </>
        )}
        {line.result !== "" && (
          <>
            {line.numbers !== undefined && line.numbers !== "" ? <br /> : null}
            {line.symbol !== "" ? " = " : ""}
            <span className="result">{line.result}</span>
          </>
        )}
      </span>
      <span className="from">
        <span className="kind">{line.kind}</span>
        {line.source !== undefined && line.source !== "" && (
          <>
            <br />
            {line.source}
          </>
        )}
        {line.path !== undefined && line.path !== "" && (
          <>
            <br />
            <button type="button" className="word" onClick={() => goToField(session, line.path ?? "")}>
              go to the entry
            </button>
          </>
        )}
      </span>
    </li>
  );
}

const subscript = /([A-Za-zΑ-ω]+)_([A-Za-z0-9]+)/g;

/** Maths sets m_i as m with a small i below. */
function Maths({ text, symbol = false }: { text: string; symbol?: boolean }) {
  const out: ReactNode[] = [];
  let at = 0;
  for (const found of text.matchAll(subscript)) {
    out.push(
      text.slice(at, found.index),
      <Fragment key={found.index}>
        <i>{found[1]}</i>
        <sub>{found[2]}</sub>
      </Fragment>,
    );
    at = found.index + found[0].length;
  }
  out.push(symbol && at === 0 ? <i key="whole">{text}</i> : text.slice(at));
  return <>{out}</>;
}

function Table({ table }: { table: SlipTable }) {
  return (
    <section className="part">
      <h3>{table.title}</h3>
      <Scroll label={table.title}>
        <table className="schedule">
          <thead>
            <tr>
              {table.heads.map((head, nth) => (
                <th key={head} className={nth === 0 ? "" : "num"}>
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {table.rows.map((row) => (
              <tr key={row.join("|")}>
                {row.map((cell, nth) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: columns keep their place
                  <td key={nth} className={nth === 0 ? "" : "num"}>
                    {cell}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
    </section>
  );
}
