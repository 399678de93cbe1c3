import { type RefObject, useEffect, useRef, useState } from "react";
import { api, Lost, Refused } from "../api/client";
import type { BuildView, Edit, Scene } from "../api.gen";
import { useCell } from "../store/cell";
import { useSession, useView } from "../store/open";
import { viewName } from "./drag";
import { partKind, placed, takenOf } from "./drop";
import { type Hands, Stage } from "./stage";
import { Strip } from "./strip";

interface Props {
  /** "plan", "left", "right", or several with "+" between, top first */
  view: string;
  against?: string;
  /** nothing can be moved */
  still?: boolean;
  stage?: RefObject<Stage | null>;
  onSeen?(): void;
  /** told when scenes were drawn */
  onDrawn?(): void;
  /** without the strip of what can be added under the drawing */
  bare?: boolean;
}

/** Surface gives the drawing its place and its scenes; the drawing itself lives outside React. */
export function Surface({ view, against, still, stage, onSeen, onDrawn, bare }: Props) {
  const session = useSession();
  const { revision, kit } = useView();
  const state = useCell(session.state);
  const selected = useCell(session.selected);
  const box = useRef<HTMLDivElement>(null);
  const under = useRef<HTMLDivElement>(null);
  const own = useRef<Stage | null>(null);
  const rows = useRef(kit.rows);
  const seen = useRef(onSeen);
  const drawn = useRef(onDrawn);
  const asked = useRef(view);
  const [said, say] = useState("");
  const [stays, setStays] = useState("");
  const [trouble, setTrouble] = useState("");
  rows.current = kit.rows;
  seen.current = onSeen;
  drawn.current = onDrawn;
  asked.current = view;

  useEffect(() => {
    if (box.current === null) return;
    let previews: ReturnType<typeof session.previewer> | null = null;
    const hands: Hands = {
      selected: session.selected.set,
      open: (row) => session.entry.set(`items/${row}`),
      more: (row) => session.takeAlso(row),
      locked: (row) => {
        const found = rows.current.find((one) => one.id === row);
        if (found === undefined) return "";
        if (found.locked !== undefined && found.locked !== "")
          return `Not offered for moving: ${found.locked}`;
        return "";
      },
      picked: (from) => {
        const wanted = asked.current.split("+").find((one) => viewName(one) === from) ?? from;
        previews = session.previewer(wanted, (preview) =>
          made.patch(from, preview.changed ?? [], preview.gone ?? []),
        );
      },
      moving: (edits) => previews?.ask(inState(edits, session.state.get())),
      put: (row, edits) => {
        previews?.end(true);
        previews = null;
        const name = rows.current.find((one) => one.id === row)?.cells;
        const what = name?.what?.text ?? name?.name?.text ?? "item";
        const now = session.state.get();
        const only = now === "travel" ? "" : `, in the ${now} state only`;
        session.change(`move ${what}${only}`, inState(edits, now));
        say(`${what} put down${only}`);
      },
      back: () => {
        previews?.end(false);
        previews = null;
        void draw.current();
      },
      said: say,
      refused: setStays,
      seen: () => {
        strip?.place(made.strip());
        seen.current?.();
      },
    };
    const strip = under.current === null ? null : new Strip(under.current);
    const made = new Stage(box.current, hands, still === true);
    const figures = () => {
      const { view: now, preview } = session.shown.get();
      const from = preview ?? now;
      if (from !== null) strip?.show({ state: session.state.get(), axles: from.axles, added: from.added });
    };
    figures();
    const unwatches = [session.shown.watch(figures), session.state.watch(figures)];
    own.current = made;
    if (stage !== undefined) stage.current = made;
    return () => {
      previews?.end(false);
      for (const unwatch of unwatches) unwatch();
      strip?.close();
      made.close();
      own.current = null;
      if (stage !== undefined) stage.current = null;
    };
  }, [session, still, stage]);

  const draw = useRef(async () => {});
  // biome-ignore lint/correctness/useExhaustiveDependencies: drawn again for every revision
  useEffect(() => {
    let current = true;
    const fetchAll = async () => {
      try {
        const scenes: Scene[] = await Promise.all(
          view.split("+").map((one) =>
            api.scene(session.id, {
              view: one,
              state,
              ...(against === undefined || against === "" ? {} : { against }),
            }),
          ),
        );
        if (!current) return;
        const names = view.split("+").map(viewName);
        own.current?.show(scenes.map((scene, nth) => ({ ...scene, id: names[nth] ?? scene.id })));
        own.current?.settled();
        drawn.current?.();
        setTrouble("");
      } catch (reason) {
        if (!current) return;
        if (reason instanceof Lost) setTrouble("The drawing comes from the server, which does not answer.");
        else if (reason instanceof Refused) setTrouble(reason.problem.text);
        else throw reason;
      }
    };
    draw.current = fetchAll;
    void fetchAll();
    return () => {
      current = false;
    };
  }, [session, view, state, against, revision]);

  useEffect(() => own.current?.choose(selected), [selected]);
  const also = useCell(session.also);
  useEffect(() => own.current?.also(also), [also]);

  return (
    <div
      className={`surface${still === true ? " still" : ""}`}
      onDragOver={(event) => {
        if (still !== true && event.dataTransfer.types.includes(partKind)) event.preventDefault();
      }}
      onDrop={(event) => {
        const part = takenOf(event.dataTransfer.getData(partKind));
        if (still === true || part === null) return;
        event.preventDefault();
        const at = own.current?.planAt(event.clientX, event.clientY) ?? null;
        if (at === null) say("Let it go over the plan.");
        else
          session.change(`add ${part.name}`, [
            placed(kit.id, part, at, hasFinished(session.shown.get().view)),
          ]);
      }}
    >
      <div className="paper-box" ref={box} />
      {trouble !== "" && <p className="none">{trouble}</p>}
      {still !== true && bare !== true && <div className="strip-box" ref={under} />}
      {stays !== "" && <p className="stays">{stays}</p>}
      <p className="hidden" role="status" aria-live="polite">
        {stays === "" ? said : stays}
      </p>
    </div>
  );
}

/** hasFinished tells whether the van's finished floor is given or assumed. */
function hasFinished(view: BuildView | null): boolean {
  const field = view?.van
    .flatMap((section) => section.fields)
    .find((one) => one.path === "van/floor/finished");
  return field !== undefined && (field.text !== "" || (field.assumed ?? "") !== "");
}

/** inState makes a move an exception of the state shown; travel is where things are unless something else is said. */
function inState(edits: Edit[], state: string): Edit[] {
  return state === "travel" ? edits : edits.map((edit) => ({ ...edit, state }));
}
