import { createContext, useContext } from "react";
import { usePick } from "./cell";
import type { Session, Shown } from "./session";

export const Open = createContext<Session | null>(null);

export function useSession(): Session {
  const session = useContext(Open);
  if (session === null) throw new Error("no build is open");
  return session;
}

export function useShown<U>(pick: (shown: Shown) => U): U {
  return usePick(useSession().shown, pick);
}

/** useView gives the view of the open build; sheets are only drawn once there is one. */
export function useView() {
  const view = useShown((shown) => shown.view);
  if (view === null) throw new Error("the build has not been read yet");
  return view;
}
