import { type ReactNode, useEffect, useRef } from "react";
import { chord, commandFor } from "../commands";
import { sheetSet } from "../sheets";
import { Differences } from "../sheets/Differences";
import { Fit } from "../sheets/Fit";
import { Job } from "../sheets/Job";
import { Kit } from "../sheets/Kit";
import { Load } from "../sheets/Load";
import { Papers } from "../sheets/Papers";
import { RecordSheet } from "../sheets/Record";
import { TextSheet } from "../sheets/Text";
import { Van } from "../sheets/Van";
import { Weight } from "../sheets/Weight";
import { useSession, useShown } from "../store/open";
import { toBuild } from "../store/route";
import { Banner } from "./Banner";
import { ConflictDialog } from "./ConflictDialog";
import { EntryPanel } from "./EntryPanel";
import { Finder } from "./Finder";
import { Refs } from "./Refs";
import { SlipPanel } from "./SlipPanel";
import { TitleBlock } from "./TitleBlock";
import { Tools } from "./Tools";

const body: Record<string, () => ReactNode> = {
  job: Job,
  kit: Kit,
  weight: Weight,
  fit: Fit,
  load: Load,
  van: Van,
  record: RecordSheet,
  differences: Differences,
  text: TextSheet,
  papers: Papers,
};

/** Sheet is one sheet of the set: index at the head, the work, the title block. */
export function Sheet({ sheet }: { sheet: string }) {
  const session = useSession();
  const ready = useShown((shown) => shown.view !== null);
  const name = useShown((shown) => shown.view?.name);
  const Body = body[sheet] ?? Job;
  const known = body[sheet] === undefined ? "job" : sheet;
  const work = useRef<HTMLElement>(null);
  useKeys();
  useEffect(() => {
    const title = sheetSet.find((one) => one.id === known)?.title ?? "";
    document.title = name === undefined ? "Berthwright" : `${name}, ${title} · Berthwright`;
    if (work.current !== null) work.current.scrollTop = 0;
  }, [known, name]);
  return (
    <div className="sheet">
      <Refs />
      <header className="head">
        <a className="home" href="#/" title="all builds">
          Berthwright
        </a>
        <Index now={known} build={session.id} />
        {ready && <Tools />}
      </header>
      <Banner sheet={known} />
      <main
        className="work"
        id="work"
        ref={work}
        tabIndex={-1}
        aria-label={sheetSet.find((one) => one.id === known)?.title}
      >
        {ready ? <Body /> : <Waiting />}
      </main>
      {ready && <TitleBlock sheet={known} />}
      {ready && <SlipPanel />}
      {ready && <EntryPanel />}
      {ready && <Finder />}
      <ConflictDialog />
    </div>
  );
}

function Index({ now, build }: { now: string; build: string }) {
  const here = useRef<HTMLElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: scrolls whenever another sheet is shown
  useEffect(() => {
    here.current
      ?.querySelector('[aria-current="page"]')
      ?.scrollIntoView({ block: "nearest", inline: "nearest" });
  }, [now]);
  return (
    <nav className="index" aria-label="Sheets" ref={here}>
      {sheetSet.map((sheet) => (
        <a
          key={sheet.id}
          href={toBuild(build, sheet.id)}
          aria-current={sheet.id === now ? "page" : undefined}
        >
          <span className="no" aria-hidden="true">
            {sheet.no}
          </span>
          {sheet.title}
        </a>
      ))}
    </nav>
  );
}

function Waiting() {
  const problem = useShown((shown) => shown.problem);
  const away = useShown((shown) => shown.away);
  if (problem !== null)
    return (
      <div className="pad">
        <h1>{problem.text}</h1>
        {problem.hint !== undefined && <p>{problem.hint}</p>}
        <p>
          <a href="#/">All builds</a>
        </p>
      </div>
    );
  return (
    <div className="pad">
      <p>{away ? "The server does not answer. This page keeps asking." : "Fetching the build…"}</p>
    </div>
  );
}

function useKeys() {
  const session = useSession();
  useEffect(() => {
    const pressed = (event: KeyboardEvent) => {
      if (event.defaultPrevented) return;
      const typing = event.target instanceof HTMLElement && event.target.matches("input, textarea, select");
      const command = commandFor(chord(event), typing);
      if (command === undefined) return;
      event.preventDefault();
      if (typing && document.activeElement instanceof HTMLElement) document.activeElement.blur();
      command.run(session);
    };
    window.addEventListener("keydown", pressed);
    return () => window.removeEventListener("keydown", pressed);
  }, [session]);
}
