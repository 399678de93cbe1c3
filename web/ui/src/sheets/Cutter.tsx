import { type PointerEvent, useRef, useState } from "react";
import type { BuildView } from "../api.gen";
import type { Stage } from "../drawing/stage";

interface Props {
  stage(): Stage | null;
  /** millimetres behind the front axle; null: half way */
  at: number | null;
  onCut(mm: number): void;
  /** changes whenever the drawing moved in its window */
  moved: number;
  view: BuildView;
}

const step = 10;

/** Cutter is the plane of the section, dragged over the plan or moved by keys. */
export function Cutter({ stage, at, onCut, moved, view }: Props) {
  const [low, high] = ends(view);
  const [held, setHeld] = useState<number | null>(null);
  const wait = useRef(0);
  const now = held ?? at ?? Math.round((low + high) / 2 / step) * step;
  const spot = (y: number) => (moved >= 0 ? (stage()?.places(now * 1000, y, undefined)[0] ?? null) : null);
  const [found, end] = [spot(1_300_000), spot(-1_300_000)];

  const set = (mm: number, done: boolean) => {
    const to = Math.max(low, Math.min(high, Math.round(mm / step) * step));
    setHeld(done ? null : to);
    clearTimeout(wait.current);
    if (done) onCut(to);
    else wait.current = window.setTimeout(() => onCut(to), 60);
  };
  const moveTo = (event: PointerEvent, done: boolean) => {
    const along = stage()?.alongAt(event.clientX);
    if (along !== undefined) set(along, done);
  };
  return (
    <>
      {found !== null && end !== null && (
        <div
          className="cutter-line"
          style={{
            left: `${found[0]}px`,
            top: `${Math.max(0, found[1])}px`,
            height: `${end[1] - Math.max(0, found[1])}px`,
          }}
          onPointerDown={(event) => {
            event.currentTarget.setPointerCapture(event.pointerId);
            setHeld(now);
          }}
          onPointerMove={(event) => {
            if (event.currentTarget.hasPointerCapture(event.pointerId)) moveTo(event, false);
          }}
          onPointerUp={(event) => moveTo(event, true)}
        >
          <span aria-hidden="true">X</span>
        </div>
      )}
      <label className="cutter">
        <span>Section at {now} mm behind the front axle</span>
        <input
          type="range"
          min={low}
          max={high}
          step={step}
          value={now}
          onChange={(event) => set(Number(event.target.value), false)}
          onPointerUp={(event) => set(Number(event.currentTarget.value), true)}
        />
      </label>
    </>
  );
}

/** ends are the bulkhead line and the rear door line in millimetres, or the most a van has. */
function ends(view: BuildView): [number, number] {
  const fields = view.van.flatMap((section) => section.fields);
  const mm = (key: string, otherwise: number) => {
    const text = fields.find((one) => one.path === key)?.text ?? "";
    const number = Number.parseFloat(text.replace(/[\s\u202f\u00a0]/g, "").replace(",", "."));
    if (!Number.isFinite(number)) return otherwise;
    return Math.round(/\bmm\b|mm$/.test(text) ? number : /m$/.test(text) ? number * 1000 : number);
  };
  const low = mm("van/floor/front", 0);
  const high = mm("van/floor/rear", 6000);
  return high > low ? [low, high] : [0, 6000];
}
