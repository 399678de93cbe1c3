import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import { api, Lost, Refused } from "../api/client";
import type { BayJob, BayView, Scene } from "../api.gen";
import { newId } from "../store/me";
import { go, toBuild } from "../store/route";
import { Outbox, type Press, shelfIn } from "./outbox";
import { PartPicture } from "./PartPicture";
import { shrink } from "./shrink";
import "../style/bay.css";

const toJob = (build: string, item: string) =>
  `#/bay/${encodeURIComponent(build)}/${encodeURIComponent(item)}`;

/** Bay is the sheet for the bay: one job a screen, for a tablet and gloves. */
export default function Bay({ build, item }: { build: string; item: string }) {
  const { view, scenes, trouble, waiting, away, box } = useBay(build);
  const [trade, setTrade] = useState("");
  const jobs = useMemo(
    () => (view?.jobs ?? []).filter((job) => trade === "" || job.trade === trade),
    [view, trade],
  );
  const done = (job: BayJob) => isDone(job, waiting);
  const at = Math.max(
    0,
    item === "" ? jobs.findIndex((job) => !done(job)) : jobs.findIndex((job) => job.item === item),
  );
  const job = jobs[at];
  useEffect(() => {
    document.title = `${view?.name ?? "Bay"}, bay · Berthwright`;
  }, [view?.name]);
  if (view === null)
    return (
      <main className="bay bay-wait">
        <p>{trouble === "" ? "Fetching the jobs…" : trouble}</p>
        <a className="bay-key" href="#/">
          All builds
        </a>
      </main>
    );
  const to = (nth: number) => {
    const next = jobs[(nth + jobs.length) % jobs.length];
    if (next !== undefined) go(toJob(build, next.item));
  };
  return (
    <div className="bay">
      <header className="bay-head">
        <a className="bay-key" href={toBuild(build, "fit")}>
          {view.name}
        </a>
        <label className="bay-trade">
          <span className="hidden">Trade</span>
          <select
            value={trade}
            onChange={(event) => {
              setTrade(event.target.value);
              const first = view.jobs.find((one) => one.trade === event.target.value);
              if (first !== undefined) go(toJob(build, first.item));
            }}
          >
            <option value="">All trades</option>
            {view.trades.map((one) => (
              <option key={one.id} value={one.id}>
                {one.text}
              </option>
            ))}
          </select>
        </label>
        <p className="bay-count">
          <b>{jobs.filter(done).length}</b> of {jobs.length} done
        </p>
        <p className={`bay-kept${waiting.length > 0 ? " some" : ""}`} role="status">
          {kept(waiting, away)}
        </p>
      </header>
      {job === undefined ? (
        <main className="bay-none">
          <p>Nothing is to be fitted here: the kit sheet has no item of this trade.</p>
        </main>
      ) : (
        <Job
          key={job.item}
          job={job}
          view={view}
          scenes={scenes}
          waiting={waiting.filter((one) => one.item === job.item)}
          waits={waiting}
          box={box}
          build={build}
          place={`${at + 1} of ${jobs.length}`}
          onBack={() => to(at - 1)}
          onNext={() => to(at + 1)}
        />
      )}
    </div>
  );
}

const isDone = (job: BayJob, waiting: readonly Press[]): boolean => {
  const last = waiting
    .filter((one) => one.item === job.item && one.refused === undefined && /done$/.test(one.kind))
    .at(-1);
  return last === undefined ? job.done !== undefined : last.kind === "done";
};

function kept(waiting: readonly Press[], away: boolean): string {
  const refused = waiting.filter((one) => one.refused !== undefined).length;
  const many = waiting.length - refused;
  if (refused > 0) return `${refused} not taken by the server`;
  if (many === 0) return away ? "no network" : "all kept";
  return `${many} kept on this tablet, ${away ? "no network" : "sending"}`;
}

/** useBay fetches the jobs and their pictures once, and keeps what is pressed. */
function useBay(build: string) {
  const [view, setView] = useState<BayView | null>(null);
  const [scenes, setScenes] = useState<Record<string, Scene>>({});
  const [trouble, setTrouble] = useState("");
  const [waiting, setWaiting] = useState<readonly Press[]>([]);
  const [away, setAway] = useState(false);
  const drawn = useRef(-1);

  const box = useMemo(
    () =>
      new Outbox(shelfIn(build), {
        send: (press) =>
          press.kind === "photo" && press.photo !== undefined
            ? api.photo(build, { entry: press.id, item: press.item, by: press.by, at: press.at }, press.photo)
            : api.press(build, {
                id: press.id,
                kind: press.kind,
                item: press.item,
                by: press.by,
                text: press.text,
                at: press.at,
              }),
        changed: (rows, answer, gone) => {
          setWaiting(rows);
          setAway(gone);
          if (answer !== null) setView(answer);
        },
        later: (run, ms) => setTimeout(run, ms),
      }),
    [build],
  );

  const load = useCallback(async () => {
    try {
      const answer = await api.bay(build);
      setView(answer);
      setAway(false);
      setTrouble("");
      if (drawn.current === answer.revision) return;
      const names = ["plan", "left", "right"];
      const all = await Promise.all(names.map((name) => api.scene(build, { view: name, state: "travel" })));
      drawn.current = answer.revision;
      setScenes(Object.fromEntries(names.map((name, nth) => [name, all[nth] as Scene])));
    } catch (reason) {
      if (reason instanceof Lost) {
        setAway(true);
        setTrouble("The server does not answer. This page keeps asking.");
        setTimeout(() => void load(), 4000);
      } else if (reason instanceof Refused) setTrouble(reason.problem.text);
      else throw reason;
    }
  }, [build]);

  useEffect(() => {
    void load();
    void box.open();
    const back = () => {
      void box.flush();
      void load();
    };
    const gone = () => setAway(true);
    const source = new EventSource(api.events(build));
    for (const kind of ["revision", "record"]) source.addEventListener(kind, () => void load());
    window.addEventListener("online", back);
    window.addEventListener("offline", gone);
    return () => {
      source.close();
      window.removeEventListener("online", back);
      window.removeEventListener("offline", gone);
    };
  }, [build, box, load]);

  return { view, scenes, trouble, waiting, away, box };
}

interface JobProps {
  job: BayJob;
  view: BayView;
  scenes: Record<string, Scene>;
  /** presses on this job that the server does not have yet */
  waiting: readonly Press[];
  waits: readonly Press[];
  box: Outbox;
  build: string;
  place: string;
  onBack(): void;
  onNext(): void;
}

function Job({ job, view, scenes, waiting, waits, box, build, place, onBack, onNext }: JobProps) {
  const [by, setBy] = useState(() => localStorage.getItem("berthwright.by") ?? "");
  const [scale, setScale] = useState<string | null>(null);
  const [said, say] = useState("");
  const camera = useRef<HTMLInputElement>(null);
  const done = isDone(job, waiting);
  const photos = job.photos.length + waiting.filter((one) => one.kind === "photo").length;
  const weighing = waiting.filter((one) => one.kind === "weighed" && one.refused === undefined).at(-1);
  const refused = waiting.filter((one) => one.refused !== undefined);
  const names = ["plan", "left", "right"];

  const press = (kind: Press["kind"], text = "", photo?: Blob) =>
    void box.add({
      id: newId(),
      build,
      kind,
      item: job.item,
      by,
      text,
      at: `${new Date().toISOString().slice(0, 19)}Z`,
      ...(photo === undefined ? {} : { photo }),
    });
  const other = (id: string) => view.jobs.find((one) => one.item === id);

  return (
    <main className="bay-job">
      <section className="bay-pictures" aria-label="The part in the van">
        {job.views
          .filter((name) => names.includes(name))
          .map((name) => (
            <figure key={name}>
              <PartPicture
                scene={scenes[name]}
                item={job.item}
                box={job.box}
                label={`${job.name} in the van, ${name === "plan" ? "seen from above" : `seen from the ${name}`}`}
              />
              <figcaption>
                {name === "plan"
                  ? "from above, front at left"
                  : name === "left"
                    ? "from the left, front at left"
                    : "from the right, front at right"}
              </figcaption>
            </figure>
          ))}
      </section>
      <section className="bay-words" aria-label="The job">
        <h1>
          {job.number > 0 && <span className="no">{job.number}</span>} {job.name}
        </h1>
        <p className="bay-facts">{job.facts.join(" · ")}</p>
        {job.tapes.length > 0 ? (
          <ol className="bay-tapes" aria-label="Tape">
            {job.tapes.slice(0, 6).map((tape) => (
              <li key={tape.text}>
                <b>{tape.length === "" ? "0" : tape.length}</b>
                <span>{tape.text.replace(tape.length, "").replace(/\s+/g, " ").trim()}</span>
              </li>
            ))}
          </ol>
        ) : (
          <p className="bay-untaped">Where it goes is not measured yet: there is nothing to tape.</p>
        )}
        {job.first.length > 0 && (
          <>
            <h2>First</h2>
            <ul className="bay-first">
              {job.first.map((one) => {
                const fine = settled(one, view, waits);
                return (
                  <li key={one.text} className={fine ? "fine" : one.care === true ? "care" : ""}>
                    <span className="tick" aria-hidden="true">
                      {fine ? "✓" : one.care === true ? "!" : "–"}
                    </span>
                    <span>
                      <span className="hidden">{fine ? "true: " : "not yet: "}</span>
                      {one.item !== undefined && other(one.item) !== undefined ? (
                        <a href={toJob(build, one.item)}>{one.text}</a>
                      ) : (
                        one.text
                      )}
                    </span>
                  </li>
                );
              })}
            </ul>
          </>
        )}
        {view.hold !== undefined && view.hold !== "" && <p className="bay-hold">Hold point: {view.hold}</p>}
        {refused.map((one) => (
          <p className="bay-refused" key={one.id}>
            {one.kind}: {one.refused}{" "}
            <button type="button" className="bay-key" onClick={() => void box.drop(one.id)}>
              Drop it
            </button>
          </p>
        ))}
      </section>
      {scale !== null && (
        <form
          className="bay-scale"
          onSubmit={(event) => {
            event.preventDefault();
            if (scale.trim() !== "") press("weighed", scale.trim());
            setScale(null);
          }}
        >
          <label htmlFor="bay-scale">The scale shows</label>
          <input
            id="bay-scale"
            inputMode="decimal"
            autoComplete="off"
            value={scale}
            // biome-ignore lint/a11y/noAutofocus: it was just asked for
            autoFocus
            onChange={(event) => setScale(event.target.value)}
          />
          <span>{view.scale}</span>
          <button type="submit" className="bay-key strong" disabled={scale.trim() === ""}>
            Keep it
          </button>
          <button type="button" className="bay-key" onClick={() => setScale(null)}>
            Back
          </button>
        </form>
      )}
      <footer className="bay-foot">
        <button type="button" className="bay-step" onClick={onBack} aria-label="job before">
          ‹
        </button>
        <button
          type="button"
          className={`bay-do${done ? " is" : ""}`}
          aria-pressed={done}
          onClick={() => press(done ? "not-done" : "done")}
        >
          <b>{done ? "✓ Done" : "Done"}</b>
          <span>{done ? mark(job.done, "press again to take it back") : "it is in and fixed"}</span>
        </button>
        <button
          type="button"
          className={`bay-do${job.weighed !== undefined || weighing !== undefined ? " is" : ""}`}
          onClick={() => setScale(scale === null ? "" : null)}
        >
          <b>Weighed</b>
          <span>
            {weighing !== undefined
              ? `${weighing.text}, kept here`
              : (job.weighed?.text ?? "what the scale shows")}
          </span>
        </button>
        <button
          type="button"
          className={`bay-do${photos > 0 ? " is" : ""}`}
          onClick={() => camera.current?.click()}
        >
          <b>Photo</b>
          <span>
            {photos === 0 ? "of what will be covered" : photos === 1 ? "1 taken" : `${photos} taken`}
          </span>
        </button>
        <button type="button" className="bay-step" onClick={onNext} aria-label="next job">
          ›
        </button>
        <label className="bay-by">
          <span>by</span>
          <input
            value={by}
            maxLength={12}
            autoComplete="off"
            aria-label="your initials"
            onChange={(event) => {
              setBy(event.target.value);
              localStorage.setItem("berthwright.by", event.target.value);
            }}
          />
          <span className="bay-place">{place}</span>
        </label>
        <input
          ref={camera}
          className="hidden"
          type="file"
          accept="image/*"
          capture="environment"
          tabIndex={-1}
          aria-label="photo"
          onChange={(event) => {
            const file = event.target.files?.[0];
            event.target.value = "";
            if (file === undefined) return;
            shrink(file)
              .then((photo) => press("photo", "", photo))
              .catch(() => say("This picture cannot be read; take it again."));
          }}
        />
      </footer>
      <p className="hidden" role="status" aria-live="polite">
        {said}
      </p>
    </main>
  );
}

const mark = (one: BayJob["done"], otherwise: string) =>
  one === undefined ? otherwise : [one.by, one.at.slice(0, 10)].filter(Boolean).join(", ");

/** settled tells whether what must be true first is: by the server, or by what was pressed here since. */
function settled(one: BayJob["first"][number], view: BayView, waiting: readonly Press[]): boolean {
  if (one.item === undefined) return one.done;
  const job = view.jobs.find((other) => other.item === one.item);
  return job === undefined ? one.done : isDone(job, waiting);
}
