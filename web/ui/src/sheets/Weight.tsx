import { useCallback, useEffect, useRef, useState } from "react";
import { Choose } from "../bits/Choose";
import { Surface } from "../drawing/Surface";
import type { Stage } from "../drawing/stage";
import { useCell } from "../store/cell";
import { useSession, useView } from "../store/open";
import { type Leader, leaders } from "./leaders";
import { MarginNotes } from "./MarginNotes";
import { PlanChest } from "./PlanChest";
import { Tables } from "./Tables";

const views = [
  ["left+plan", "Both"],
  ["plan", "Plan"],
  ["left", "Left"],
  ["right", "Right"],
] as const;

/** Weight is the van to scale, with what stands on its axles and what the checks say of it. */
export function Weight() {
  const session = useSession();
  const view = useView();
  const selected = useCell(session.selected);
  const [side, setSide] = useState(firstView);
  const [face, setFace] = useState("drawing");
  const chest = useCell(session.chest);
  const [noted, setNoted] = useState("");
  const [lines, setLines] = useState<Leader[]>([]);
  const box = useRef<HTMLDivElement>(null);
  const stage = useRef<Stage | null>(null);
  const notes = view.findings.filter((finding) => finding.note).slice(0, 7);
  const shown = notes.find((finding) => finding.key === noted) === undefined ? "" : noted;

  const lead = useRef(() => {});
  lead.current = () => setLines(leaders(box.current, stage.current, notes, shown));
  const seen = useCallback(() => requestAnimationFrame(() => lead.current()), []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: leaders follow what is shown
  useEffect(() => {
    seen();
  }, [view, shown, face, seen]);

  return (
    <div className="weight">
      <div className="over-grid">
        <span className="doings">
          <Choose
            label="Sheet shows"
            value={face}
            onChange={setFace}
            choices={[
              ["drawing", "Drawing"],
              ["tables", "Tables"],
            ]}
          />
          {face === "drawing" && (
            <span className="choose" role="group" aria-label="Zoom">
              <button
                type="button"
                aria-label="closer"
                title="closer (+)"
                onClick={() => stage.current?.closer(1.25)}
              >
                +
              </button>
              <button
                type="button"
                aria-label="farther"
                title="farther (−)"
                onClick={() => stage.current?.closer(0.8)}
              >
                −
              </button>
              <button
                type="button"
                aria-label="whole drawing"
                title="whole drawing (0)"
                onClick={() => stage.current?.whole()}
              >
                whole
              </button>
            </span>
          )}
          {face === "drawing" && <Choose label="View" value={side} onChange={setSide} choices={views} />}
        </span>
        <span className="doings">
          {face === "drawing" && (
            <span className="small keys">
              arrows go from item to item · Enter picks up and puts down · arrows move 10 mm, Shift 100, Alt 1
              · Esc puts back
            </span>
          )}
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
      {face === "tables" ? (
        <Tables />
      ) : (
        <div className="weight-split" ref={box}>
          <Surface view={side} stage={stage} onSeen={seen} />
          <MarginNotes
            notes={notes}
            rest={
              view.findings.filter(
                (finding) => finding.verdict !== "holds" && finding.verdict !== "not-begun" && !finding.note,
              ).length
            }
            selected={shown}
            row={selected}
            onSelect={(key) => setNoted(key === shown ? "" : key)}
          />
          <svg className="leaders" aria-hidden="true">
            {lines.map((line) => (
              <path key={line.key} d={line.d} className={line.chosen ? "chosen" : ""} />
            ))}
          </svg>
        </div>
      )}
      {chest && <PlanChest onClose={() => session.chest.set(false)} />}
    </div>
  );
}

/** firstView shows plan and elevation where they fit, and the plan alone on a low screen. */
function firstView(): string {
  return window.innerHeight >= 860 || window.innerWidth < 721 ? "left+plan" : "plan";
}
