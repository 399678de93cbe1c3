import { useEffect, useRef, useState } from "react";
import { api, Lost, Refused } from "../api/client";
import type { PartList } from "../api.gen";
import { partKind } from "../drawing/drop";
import { useSession, useView } from "../store/open";

/** PlanChest is the drawer of generic parts and the workshop's own. */
export function PlanChest({ onClose }: { onClose(): void }) {
  const session = useSession();
  const view = useView();
  const [q, setQ] = useState("");
  const [group, setGroup] = useState("");
  const [list, setList] = useState<PartList | null>(null);
  const [said, say] = useState("");
  const field = useRef<HTMLInputElement>(null);

  useEffect(() => field.current?.focus(), []);

  useEffect(() => {
    let current = true;
    const timer = setTimeout(() => {
      api
        .parts(q.trim(), group)
        .then((found) => {
          if (!current) return;
          setList(found);
          say("");
        })
        .catch((reason: unknown) => {
          if (!current) return;
          if (reason instanceof Lost) say("The server does not answer.");
          else if (reason instanceof Refused) say(reason.problem.text);
          else throw reason;
        });
    }, 120);
    return () => {
      current = false;
      clearTimeout(timer);
    };
  }, [q, group]);

  return (
    <aside
      className="side left"
      aria-label="Plan chest"
      onKeyDown={(event) => {
        if (event.key === "Escape") onClose();
      }}
    >
      <header>
        <div>
          <h2>Plan chest</h2>
          <p className="small">generic parts, edition {list?.edition ?? "…"}</p>
        </div>
        <button type="button" className="word" onClick={onClose}>
          Close
        </button>
      </header>
      <div className="inner">
        <div className="find">
          <input
            ref={field}
            className="line"
            aria-label="Find a part"
            placeholder="find a part"
            value={q}
            onChange={(event) => setQ(event.target.value)}
          />
          <select
            className="line"
            aria-label="Group"
            value={group}
            onChange={(event) => setGroup(event.target.value)}
          >
            <option value="">every group</option>
            {(list?.groups ?? []).map((one) => (
              <option key={one.id} value={one.id}>
                {one.text}
              </option>
            ))}
          </select>
        </div>
        {said !== "" && <p className="none">{said}</p>}
        {list !== null && (list.parts ?? []).length === 0 && (
          <p className="none">No part has that in its name.</p>
        )}
        <ul>
          {(list?.parts ?? []).slice(0, 120).map((part) => (
            <li
              key={part.ref}
              className="part-row"
              draggable
              title="drag it onto the plan, or put it in"
              onDragStart={(event) => {
                event.dataTransfer.setData(partKind, JSON.stringify({ ref: part.ref, name: part.name }));
                event.dataTransfer.effectAllowed = "copy";
              }}
            >
              <span className="what">
                {part.name}
                <span className="small">
                  <br />
                  {[part.mass, part.size, part.own ? "our own" : part.basis]
                    .filter((word) => word !== "")
                    .join(" · ")}
                </span>
              </span>
              <button
                type="button"
                className="word"
                onClick={() =>
                  session.change(`add ${part.name}`, [
                    { kind: "add", grid: view.kit.id, text: part.name, part: part.ref },
                  ])
                }
              >
                Put in<span className="hidden"> {part.name}</span>
              </button>
            </li>
          ))}
        </ul>
      </div>
    </aside>
  );
}
