import type { ReactNode } from "react";
import { useSession } from "../store/open";

/** Figure is a printed figure that opens its working. Without a key it is plain text. */
export function Figure({ slip, children }: { slip?: string; children: ReactNode }) {
  const session = useSession();
  if (slip === undefined || slip === "") return <>{children}</>;
  return (
    <button type="button" className="figure" title="show the working" onClick={() => session.slip.set(slip)}>
      {children}
    </button>
  );
}
