import { lazy, Suspense, useCallback, useEffect, useMemo, useRef, useState } from "react";
import type { FindingView, Subject } from "../api.gen";
import { Choose } from "../bits/Choose";
import { arrange, arrangements } from "../drawing/arrange";
import { Surface } from "../drawing/Surface";
import type { Stage } from "../drawing/stage";
import { useCell } from "../store/cell";
import { useSession, useView } from "../store/open";
import { Cutter } from "./Cutter";
import { type Leader, leaders } from "./leaders";
import { MarginNotes } from "./MarginNotes";
import { Pinned, Pins } from "./Pinned";
import { PlanChest } from "./PlanChest";
import { Trades } from "./Trades";

const Space = lazy(() => import("../space/Space"));

const views = [
  ["plan", "Plan"],
  ["left", "Left"],
  ["right", "Right"],
  ["wall-left", "Left wall"],
  ["wall-right", "Right wall"],
  ["section", "Section"],
] as const;

const faces = [
  ["drawing", "Drawing"],
  ["space", "In space"],
] as const;

/** Fit is the van to scale in each state and view, with what the checks of fit say of it. */
export function Fit() {
  const session = useSession();
  const view = useView();
  const state = useCell(session.state);
  const selected = useCell(session.selected);
  const also = useCell(session.also);
  const chest = useCell(session.chest);
  const veiled = useCell(session.veiled);
  const [face, setFace] = useState("drawing");
  const [side, setSide] = useState("plan");
  const [cut, setCut] = useState<number | null>(null);
  const [noted, setNoted] = useState("");
  const [lines, setLines] = useState<Leader[]>([]);
  const [moved, setMoved] = useState(0);
  const [aside, setAside] = useState("findings");
  const box = useRef<HTMLDivElement>(null);
  const stage = useRef<Stage | null>(null);
  const wanted = useRef<FindingView | null>(null);

  const notes = useMemo(() => worst(view.findings, state), [view.findings, state]);
  const shown = notes.shown.find((finding) => finding.key === noted) === undefined ? "" : noted;
  const asked = side === "section" ? `plan+section${cut === null ? "" : `@${cut}`}` : side;

  const lead = useRef(() => {});
  lead.current = () => {
    setLines(aside === "findings" ? leaders(box.current, stage.current, notes.shown, shown) : []);
    setMoved((n) => n + 1);
  };
  const seen = useCallback(() => requestAnimationFrame(() => lead.current()), []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: leaders follow what is shown
  useEffect(() => {
    seen();
  }, [view, shown, face, aside, seen]);

  const drawn = useCallback(() => {
    stage.current?.veil(session.veiled.get());
    const note = wanted.current;
    wanted.current = null;
    if (note !== null) show(stage.current, note);
  }, [session]);
  useEffect(() => stage.current?.veil(veiled), [veiled]);

  const select = (key: string) => {
    if (key === shown) return setNoted("");
    setNoted(key);
    const note = notes.shown.find((finding) => finding.key === key);
    if (note === undefined) return;
    const rows = rowsOf(note.subjects);
    session.selected.set(rows[0] ?? "");
    session.also.set(rows.slice(1));
    if (note.state !== state && states.has(note.state)) {
      wanted.current = note;
      session.show(note.state);
    } else show(stage.current, note);
  };

  return (
    <div className="weight fit">
      <div className="over-grid">
        <span className="doings">
          <Choose label="Sheet shows" value={face} onChange={setFace} choices={faces} />
          {face === "drawing" && <Choose label="View" value={side} onChange={setSide} choices={views} />}
          {face === "drawing" && <Zoom stage={() => stage.current} />}
        </span>
        <span className="doings">
          <Trades />
          <Choose
            label="In the margin"
            value={aside}
            onChange={setAside}
            choices={[
              ["findings", "Findings"],
              ["notes", `Notes ${view.notes.length === 0 ? "" : view.notes.length}`.trim()],
            ]}
          />
          <button
            type="button"
            className="word"
            aria-expanded={chest}
            onClick={() => session.chest.set(!chest)}
          >
            Plan chest
          </button>
        </span>
      </div>
      {also.length > 0 && (
        <div className="arrange" role="toolbar" aria-label="Arrange the selected items">
          <span className="small">{also.length + 1} selected:</span>
          {arrangements.map((one) => (
            <button
              key={one.id}
              type="button"
              className="word"
              title={one.title}
              onClick={() => void arrange(session, one.id)}
            >
              {one.short}
            </button>
          ))}
          <button type="button" className="word" onClick={() => session.also.set([])}>
            only the first
          </button>
        </div>
      )}
      <div className="weight-split" ref={box}>
        {face === "space" ? (
          <Suspense fallback={<p className="none pad">Fetching the view in space…</p>}>
            <Space noted={notes.shown.find((finding) => finding.key === shown) ?? null} />
          </Suspense>
        ) : (
          <div className="fit-surface">
            <Surface view={asked} stage={stage} onSeen={seen} onDrawn={drawn} bare />
            {side === "section" && (
              <Cutter stage={() => stage.current} at={cut} onCut={setCut} moved={moved} view={view} />
            )}
            <Pins stage={() => stage.current} moved={moved} onOpen={() => setAside("notes")} />
          </div>
        )}
        {aside === "findings" ? (
          <MarginNotes
            notes={notes.shown}
            rest={notes.rest}
            selected={shown}
            row={selected}
            onSelect={select}
          />
        ) : (
          <Pinned
            onShow={(note) =>
              stage.current?.reveal(rowsOf([note.on]), [{ x: note.on.xUm, y: note.on.yUm, z: note.on.zUm }])
            }
          />
        )}
        {face === "drawing" && (
          <svg className="leaders" aria-hidden="true">
            {lines.map((line) => (
              <path key={line.key} d={line.d} className={line.chosen ? "chosen" : ""} />
            ))}
          </svg>
        )}
      </div>
      {chest && <PlanChest onClose={() => session.chest.set(false)} />}
    </div>
  );
}

const states = new Set(["travel", "camp", "night", "stored"]);

/** worst are at most seven findings of fit: those of the state shown first, then those of others, each worst first. */
export function worst(findings: readonly FindingView[], state: string) {
  const raised = findings.filter(
    (one) => one.concern === "fit" && one.verdict !== "holds" && one.verdict !== "not-begun",
  );
  const hard = (one: FindingView) => (one.advisory === true ? 2 : one.verdict === "does-not-hold" ? 0 : 1);
  const elsewhere = (one: FindingView) => (one.state !== state && states.has(one.state) ? 1 : 0);
  const sorted = raised
    .map((one, nth) => ({ one, nth }))
    .sort((a, b) => hard(a.one) - hard(b.one) || elsewhere(a.one) - elsewhere(b.one) || a.nth - b.nth)
    .map(({ one }) => one);
  return { shown: sorted.slice(0, 7), rest: Math.max(0, sorted.length - 7) };
}

const rowsOf = (subjects: readonly Subject[]) =>
  subjects.map((one) => /^items\/([^/]+)/.exec(one.path)?.[1]).filter((row) => row !== undefined);

function show(stage: Stage | null, note: FindingView): void {
  stage?.reveal(
    rowsOf(note.subjects),
    note.subjects.map((one) => ({ x: one.xUm, y: one.yUm, z: one.zUm })),
  );
}

function Zoom({ stage }: { stage(): Stage | null }) {
  return (
    <span className="choose" role="group" aria-label="Zoom">
      <button type="button" aria-label="closer" title="closer (+)" onClick={() => stage()?.closer(1.25)}>
        +
      </button>
      <button type="button" aria-label="farther" title="farther (−)" onClick={() => stage()?.closer(0.8)}>
        −
      </button>
      <button type="button" aria-label="whole drawing" title="whole (0)" onClick={() => stage()?.whole()}>
        whole
      </button>
    </span>
  );
}
