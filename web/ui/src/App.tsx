import { lazy, Suspense, useEffect, useState } from "react";
import { Sheet } from "./frame/Sheet";
import { Builds } from "./sheets/Builds";
import { NewBuild } from "./sheets/NewBuild";
import { useCell } from "./store/cell";
import { Open } from "./store/open";
import { route } from "./store/route";
import { Session } from "./store/session";

const Bay = lazy(() => import("./bay/Bay"));

export function App() {
  const where = useCell(route);
  if (where.at === "bay")
    return (
      <Suspense fallback={null}>
        <Bay key={where.build} build={where.build} item={where.sheet} />
      </Suspense>
    );
  if (where.at === "new") return <NewBuild />;
  if (where.at === "build") return <OneBuild key={where.build} id={where.build} sheet={where.sheet} />;
  return <Builds />;
}

function OneBuild({ id, sheet }: { id: string; sheet: string }) {
  const [session, setSession] = useState<Session | null>(null);
  useEffect(() => {
    const opened = new Session(id);
    setSession(opened);
    opened.open();
    return () => opened.close();
  }, [id]);
  if (session === null) return null;
  return (
    <Open.Provider value={session}>
      <Sheet sheet={sheet} />
    </Open.Provider>
  );
}
