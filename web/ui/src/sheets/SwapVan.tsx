import { useEffect, useState } from "react";
import { api } from "../api/client";
import type { Choice } from "../api.gen";
import { useSession } from "../store/open";

/** SwapVan puts another base van under the same items, as one change: a class of van, or the van of another build. */
export function SwapVan() {
  const session = useSession();
  const [open, setOpen] = useState(false);
  const [vans, setVans] = useState<Choice[]>([]);
  useEffect(() => {
    if (!open) return;
    let current = true;
    Promise.all([api.choices(), api.builds()])
      .then(([choices, list]) => {
        if (!current) return;
        const builds = (list.builds ?? []).filter((row) => row.id !== session.id);
        setVans([
          ...choices.classes,
          ...builds.map((row) => ({ id: row.id, text: `the van of ${row.name}` })),
        ]);
      })
      .catch(() => setVans([]));
    return () => {
      current = false;
    };
  }, [open, session]);
  if (!open)
    return (
      <button type="button" className="word" onClick={() => setOpen(true)}>
        Swap the base van under this kit…
      </button>
    );
  return (
    <label>
      Swap to{" "}
      <select
        className="line short"
        value=""
        onChange={(event) => {
          const van = vans.find((one) => one.id === event.target.value);
          if (van === undefined) return;
          session.change(`swap the base van: ${van.text}`, [{ kind: "van", text: van.id }]);
          setOpen(false);
        }}
      >
        <option value="">choose a van</option>
        {vans.map((one) => (
          <option key={one.id} value={one.id}>
            {one.text}
          </option>
        ))}
      </select>
    </label>
  );
}
