import { useEffect, useId, useRef, useState } from "react";
import type { BuildView, Sentence } from "../api.gen";
import { Mark, verdictWord } from "../bits/Verdict";
import { goToField } from "../form/jump";
import { firstMissing } from "../form/missing";
import { sheetSet } from "../sheets";
import { useCell } from "../store/cell";
import { useSession, useShown, useView } from "../store/open";
import { useLate } from "./late";

/** TitleBlock holds the deciding figures as sentences; it is on every sheet and always in sight. */
export function TitleBlock({ sheet }: { sheet: string }) {
  const view = useView();
  const preview = useShown((shown) => shown.preview);
  const waiting = useLate(useShown((shown) => shown.waiting.length > 0));
  const title = preview?.title ?? view.title;
  return (
    <section className="block" aria-label="Title block">
      <Ident view={view} sheet={sheet} />
      <div className="claims">
        {title.map((claim, nth) => (
          <Claim
            key={claim.key}
            claim={claim}
            ageing={waiting || claim.ageing === true}
            wide={nth === title.length - 1 && title.length % 2 === 1}
          />
        ))}
        {title.length === 0 && <p className="claim small">No figure decides anything yet.</p>}
      </div>
      <StateSwitch />
      <Live title={view.title} />
    </section>
  );
}

function Ident({ view, sheet }: { view: BuildView; sheet: string }) {
  const name = sheetSet.find((one) => one.id === sheet);
  return (
    <div className="ident">
      <span className="name">{view.name}</span>
      <span className="small">
        sheet {name?.no} of {sheetSet.length - 1} · {name?.title}
      </span>
      <span className="small">
        revision {view.revision} · {view.status}
      </span>
    </div>
  );
}

function Claim({ claim, ageing, wide }: { claim: Sentence; ageing: boolean; wide: boolean }) {
  const session = useSession();
  const view = useView();
  const slip = claim.slip ?? "";
  const missing = claim.verdict === "unknown" ? firstMissing(view, claim) : undefined;
  return (
    <div className={`claim${wide ? " wide" : ""}`}>
      <button
        type="button"
        className={`say ${claim.verdict}${ageing ? " ageing" : ""}`}
        disabled={slip === ""}
        onClick={() => session.slip.set(slip)}
      >
        <Mark verdict={claim.verdict} />
        <span className="text">{claim.text}</span>
      </button>
      <span className="detail">
        <b>{verdictWord(claim.verdict)}</b>
        {claim.detail !== undefined && claim.detail !== "" && ` · ${claim.detail}`}
        {missing !== undefined && (
          <>
            {" · "}
            <button
              type="button"
              className="word"
              title="Alt+M"
              onClick={() => goToField(session, missing.path)}
            >
              fill in {missing.name}
            </button>
          </>
        )}
        {ageing && " · of an older revision"}
      </span>
    </div>
  );
}

const states = [
  ["travel", "Travel"],
  ["camp", "Camp"],
  ["night", "Night"],
  ["stored", "Stored"],
] as const;

function StateSwitch() {
  const session = useSession();
  const now = useCell(session.state);
  const keys = useRef<HTMLDivElement>(null);
  const label = useId();
  const step = (by: number) => {
    const at = states.findIndex(([id]) => id === now);
    const next = states[(at + by + states.length) % states.length];
    if (next === undefined) return;
    session.show(next[0]);
    keys.current?.querySelector<HTMLElement>(`[data-state="${next[0]}"]`)?.focus();
  };
  return (
    <div
      className="states"
      role="radiogroup"
      aria-labelledby={label}
      ref={keys}
      onKeyDown={(event) => {
        const by = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1 }[event.key];
        if (by === undefined) return;
        event.preventDefault();
        step(by);
      }}
    >
      <span className="hidden" id={label}>
        State of the van
      </span>
      {states.map(([id, word]) => (
        <button
          type="button"
          key={id}
          role="radio"
          data-state={id}
          aria-checked={id === now}
          tabIndex={id === now ? 0 : -1}
          onClick={() => session.show(id)}
        >
          {word}
        </button>
      ))}
    </div>
  );
}

/** Live says a changed verdict to people who listen; it is quiet while something moves. */
function Live({ title }: { title: Sentence[] }) {
  const seen = useRef(new Map<string, string>());
  const [said, say] = useState("");
  useEffect(() => {
    const changed = title.filter((claim) => {
      const before = seen.current.get(claim.key);
      return before !== undefined && before !== claim.verdict;
    });
    for (const claim of title) seen.current.set(claim.key, claim.verdict);
    if (changed.length > 0)
      say(changed.map((claim) => `${verdictWord(claim.verdict)}: ${claim.text}`).join(". "));
  }, [title]);
  return (
    <p className="hidden" role="status" aria-live="polite">
      {said}
    </p>
  );
}
