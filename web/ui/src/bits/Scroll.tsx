import type { ReactNode } from "react";

/** Scroll lets a wide table be moved sideways, by keyboard too. */
export function Scroll({ label, children }: { label: string; children: ReactNode }) {
  return (
    <section className="scroll" aria-label={label} tabIndex={0}>
      {children}
    </section>
  );
}
