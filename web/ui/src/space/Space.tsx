import { useEffect, useRef, useState } from "react";
import { Color } from "three";
import { api, Lost, Refused } from "../api/client";
import type { FindingView, SolidsView } from "../api.gen";
import { light } from "../frame/light";
import { useCell } from "../store/cell";
import { useSession, useView } from "../store/open";
import type { Inks } from "./model";
import { SpaceStage, type Way } from "./stage";

/** Space is the van in space; it says so in words where the browser cannot draw it. */
export default function Space({ noted }: { noted: FindingView | null }) {
  const session = useSession();
  const { revision } = useView();
  const state = useCell(session.state);
  const selected = useCell(session.selected);
  const also = useCell(session.also);
  const veiled = useCell(session.veiled);
  const now = useCell(light);
  const box = useRef<HTMLDivElement>(null);
  const stage = useRef<SpaceStage | null>(null);
  const [solids, setSolids] = useState<SolidsView | null>(null);
  const [trouble, setTrouble] = useState("");
  const [way, setWay] = useState<Way | "">("");
  const [cut, setCut] = useState(0);
  const [roof, setRoof] = useState(true);

  useEffect(() => {
    if (box.current === null) return;
    try {
      stage.current = new SpaceStage(box.current, {
        selected: (row) => {
          session.also.set([]);
          session.selected.set(row);
        },
      });
    } catch {
      setTrouble(
        "This browser cannot draw in space (it offers no WebGL). Plan, elevations and sections show the same.",
      );
    }
    return () => {
      stage.current?.close();
      stage.current = null;
    };
  }, [session]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again for every revision
  useEffect(() => {
    let current = true;
    api
      .solids(session.id, state)
      .then((answer) => {
        if (current) setSolids(answer);
      })
      .catch((reason: unknown) => {
        if (!current) return;
        if (reason instanceof Lost) setTrouble("The view comes from the server, which does not answer.");
        else if (reason instanceof Refused) setTrouble(reason.problem.text);
        else throw reason;
      });
    return () => {
      current = false;
    };
  }, [session, state, revision]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: inks follow day and night
  useEffect(() => {
    if (solids !== null) stage.current?.show(solids, inksNow(), veiled, roof);
  }, [solids, veiled, now, roof]);
  useEffect(() => stage.current?.choose([selected, ...also].filter((row) => row !== "")), [selected, also]);
  useEffect(() => stage.current?.cut(way === "" ? null : way, cut), [way, cut]);
  useEffect(() => {
    const rows = (noted?.subjects ?? [])
      .map((one) => /^items\/([^/]+)/.exec(one.path)?.[1])
      .filter((row) => row !== undefined);
    if (rows.length > 0) stage.current?.look(rows);
  }, [noted]);

  const [low, high] = reach(solids, way);
  const one = solids?.bodies.find((body) => body.id === selected);
  return (
    <div className="space">
      <div className="space-box" ref={box} />
      {trouble !== "" && <p className="none pad">{trouble}</p>}
      {solids?.why !== undefined && solids.why !== "" && <p className="space-why small">{solids.why}</p>}
      <div className="space-tools">
        <p className="space-name" role="status">
          {one === undefined ? "" : `${one.number > 0 ? `${one.number} ` : ""}${one.name}`}
        </p>
        <label>
          <input type="checkbox" checked={roof} onChange={(event) => setRoof(event.target.checked)} /> what is
          outside
        </label>
        <label>
          cut{" "}
          <select
            value={way}
            onChange={(event) => {
              const chosen = event.target.value as Way | "";
              const [from, to] = reach(solids, chosen);
              setWay(chosen);
              setCut(Math.round((from + to) / 20) * 10);
            }}
          >
            <option value="">nowhere</option>
            <option value="across">across the van</option>
            <option value="along">along the van</option>
            <option value="level">level</option>
          </select>
        </label>
        {way !== "" && (
          <label>
            <span className="hidden">where it is cut</span>
            <input
              type="range"
              min={low}
              max={high}
              step={10}
              value={cut}
              onChange={(event) => setCut(Number(event.target.value))}
            />{" "}
            {cut} mm
          </label>
        )}
        <button type="button" className="word" onClick={() => stage.current?.look([])}>
          whole van
        </button>
        {selected !== "" && (
          <button type="button" className="word" onClick={() => stage.current?.look([selected, ...also])}>
            the selected
          </button>
        )}
        <span className="small keys">
          drag turns · Shift or two fingers slide · wheel nears · arrows turn · , and . go from item to item
        </span>
      </div>
    </div>
  );
}

/** reach is how far a cut can be moved, in millimetres. */
function reach(solids: SolidsView | null, way: Way | ""): [number, number] {
  const floor = solids?.floor;
  if (way === "level") return [0, 2400];
  if (way === "along") return [Math.round(floor?.y0 ?? -900), Math.round(floor?.y1 ?? 900)];
  return [Math.round((floor?.x0 ?? 500) - 500), Math.round(floor?.x1 ?? 6000)];
}

/** inksNow reads the inks of the sheet as they are by day or by night. */
function inksNow(): Inks {
  const style = getComputedStyle(document.documentElement);
  const ink = (name: string) => new Color(style.getPropertyValue(name).trim());
  return {
    paper: ink("--paper"),
    tint: ink("--paper-3"),
    ink: ink("--ink"),
    faint: ink("--rule-2"),
    accent: ink("--accent"),
  };
}
