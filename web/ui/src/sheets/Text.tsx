import { useEffect, useMemo, useRef, useState } from "react";
import { api, Clash, Lost, Refused } from "../api/client";
import type { Marked, TextView } from "../api.gen";
import { client, newId } from "../store/me";
import { useSession, useView } from "../store/open";

/** TextSheet is the build as its text, with what is wrong shown in place. */
export function TextSheet() {
  const session = useSession();
  const view = useView();
  const [text, setText] = useState<TextView | null>(null);
  const [typed, type] = useState<string | null>(null);
  const [said, say] = useState("");
  const area = useRef<HTMLTextAreaElement>(null);

  // biome-ignore lint/correctness/useExhaustiveDependencies: fetched again for every revision, unless typed into
  useEffect(() => {
    if (typed !== null && text !== null) return;
    let current = true;
    api
      .text(session.id)
      .then((found) => {
        if (current) setText(found);
      })
      .catch((reason: unknown) => {
        if (current) say(words(reason));
      });
    return () => {
      current = false;
    };
  }, [session, view.revision]);

  const keep = () => {
    if (typed === null || text === null) return;
    const sent = typed;
    api
      .putText(session.id, { id: newId(), client: client(), base: text.revision, text: sent })
      .then((found) => {
        setText(found);
        type((now) => (now === sent ? null : now));
        say("");
        void session.load();
      })
      .catch((reason: unknown) => say(words(reason)));
  };

  const shown = typed ?? text?.text ?? "";
  const marks = text?.marks ?? [];
  const lines = useMemo(() => shown.split("\n").length, [shown]);
  const longest = useMemo(
    () => shown.split("\n").reduce((most, row) => Math.max(most, row.length), 0),
    [shown],
  );
  const byLine = useMemo(() => {
    const map = new Map<number, Marked[]>();
    for (const mark of marks) map.set(mark.line, [...(map.get(mark.line) ?? []), mark]);
    return map;
  }, [marks]);

  if (text === null)
    return (
      <div className="pad">
        <p className="none">{said === "" ? "Fetching the text…" : said}</p>
      </div>
    );

  const goTo = (mark: Marked) => {
    const field = area.current;
    if (field === null) return;
    const rows = shown.split("\n");
    const before = rows.slice(0, mark.line - 1).reduce((sum, row) => sum + row.length + 1, 0);
    const row = rows[mark.line - 1] ?? "";
    const chars = [...row];
    const from = before + chars.slice(0, Math.max(0, mark.column - 1)).join("").length;
    const to =
      mark.endLine === mark.line && mark.endColumn > mark.column
        ? before + chars.slice(0, mark.endColumn - 1).join("").length
        : before + row.length;
    field.focus();
    field.setSelectionRange(from, to);
    field.closest(".text-box")?.scrollTo({ top: (mark.line - 4) * 20 });
  };

  return (
    <div className="text-sheet">
      <div className="over-grid">
        <p>
          {text.draft ? (
            <b>
              This text cannot be read. It is kept as a draft; the figures are of revision {view.revision}.
            </b>
          ) : (
            <b>
              {marks.length === 0
                ? "Read without a remark."
                : `${marks.length} ${marks.length === 1 ? "remark" : "remarks"}.`}
            </b>
          )}
          <span className="small keys">
            {typed === null ? `revision ${text.revision}` : "not kept yet"} · Ctrl+S keeps it
          </span>
        </p>
        <span className="doings">
          {said !== "" && <span role="alert">{said}</span>}
          {text.draft && (
            <button
              type="button"
              className="word"
              onClick={() =>
                void api
                  .dropDraft(session.id)
                  .then((found) => {
                    setText(found);
                    type(null);
                  })
                  .catch((reason: unknown) => say(words(reason)))
              }
            >
              Drop the draft
            </button>
          )}
          <button type="button" className="do first" disabled={typed === null} onClick={keep}>
            Keep this text
          </button>
        </span>
      </div>
      <div className="text-split">
        <div
          className="text-box"
          onKeyDown={(event) => {
            if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "s") {
              event.preventDefault();
              keep();
            }
          }}
        >
          <ol className="gutter" aria-hidden="true">
            {Array.from({ length: lines }, (_, nth) => {
              const here = byLine.get(nth + 1);
              return (
                // biome-ignore lint/suspicious/noArrayIndexKey: lines are numbered
                <li key={nth} className={here === undefined ? "" : (here[0]?.severity ?? "")}>
                  {nth + 1}
                </li>
              );
            })}
          </ol>
          <div className="paperstrip" style={{ height: lines * 20 + 16, minWidth: `${longest + 4}ch` }}>
            {marks.map((mark) => (
              <i
                key={`${mark.path}${mark.code}${mark.line}:${mark.column}`}
                className={mark.severity}
                style={{
                  top: (mark.line - 1) * 20 + 8,
                  left: `calc(${mark.column - 1}ch + 10px)`,
                  width: `${Math.max(1, mark.endLine === mark.line ? mark.endColumn - mark.column : 3)}ch`,
                }}
              />
            ))}
            <textarea
              ref={area}
              aria-label="Text of the build"
              value={shown}
              spellCheck={false}
              wrap="off"
              onChange={(event) => type(event.target.value)}
            />
          </div>
        </div>
        <aside className="remarks" aria-label="Remarks on the text">
          {marks.length === 0 && <p className="none">Nothing is wrong with it.</p>}
          <ol>
            {marks.map((mark) => (
              <li key={`${mark.path}${mark.code}${mark.line}:${mark.column}`} className={mark.severity}>
                <button type="button" className="figure" onClick={() => goTo(mark)}>
                  <b>
                    {mark.line}:{mark.column}
                  </b>{" "}
                  {mark.severity === "error" ? "wrong" : "remark"}: {mark.text}
                </button>
                {mark.hint !== undefined && mark.hint !== "" && <p className="small">{mark.hint}</p>}
              </li>
            ))}
          </ol>
        </aside>
      </div>
    </div>
  );
}

function words(reason: unknown): string {
  if (reason instanceof Clash)
    return "The build was changed meanwhile. Your text is still here; read the newer text in another window and bring both together.";
  if (reason instanceof Lost) return "The server does not answer; the text is still here, not kept.";
  if (reason instanceof Refused) return reason.problem.text;
  throw reason;
}
