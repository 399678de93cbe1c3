import { useEffect, useState } from "react";

/** useLate waits a moment, so that one missed answer does not flicker. */
export function useLate(on: boolean): boolean {
  const [late, setLate] = useState(false);
  useEffect(() => {
    if (!on) {
      setLate(false);
      return;
    }
    const timer = setTimeout(() => setLate(true), 400);
    return () => clearTimeout(timer);
  }, [on]);
  return late;
}
