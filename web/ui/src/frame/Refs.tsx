/** Refs are the reference letters and numbers in the margin of a drawing sheet. */
const across = ["1", "2", "3", "4", "5", "6", "7", "8"];
const down = ["A", "B", "C", "D", "E"];

export function Refs() {
  return (
    <div className="refs" aria-hidden="true">
      {across.map((ref, nth) => {
        const left = `${((nth + 0.5) / across.length) * 100}%`;
        return [
          <span key={`t${ref}`} style={{ left, top: 5 }}>
            {ref}
          </span>,
          <span key={`b${ref}`} style={{ left, bottom: 4 }}>
            {ref}
          </span>,
        ];
      })}
      {down.map((ref, nth) => {
        const top = `${((nth + 0.5) / down.length) * 100}%`;
        return [
          <span key={`l${ref}`} style={{ top, left: 8 }}>
            {ref}
          </span>,
          <span key={`r${ref}`} style={{ top, right: 8 }}>
            {ref}
          </span>,
        ];
      })}
    </div>
  );
}
