import { useRef } from "react";

interface Props {
  label: string;
  value: string;
  choices: readonly (readonly [string, string])[];
  onChange(value: string): void;
}

/** Choose is a row of words of which one is taken. */
export function Choose({ label, value, choices, onChange }: Props) {
  const box = useRef<HTMLSpanElement>(null);
  const step = (by: number) => {
    const at = choices.findIndex(([id]) => id === value);
    const next = choices[(at + by + choices.length) % choices.length];
    if (next === undefined) return;
    onChange(next[0]);
    box.current?.querySelector<HTMLElement>(`[data-id="${next[0]}"]`)?.focus();
  };
  return (
    <span
      className="choose"
      role="radiogroup"
      aria-label={label}
      ref={box}
      onKeyDown={(event) => {
        const by = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
        if (by === undefined) return;
        event.preventDefault();
        step(by);
      }}
    >
      {choices.map(([id, word]) => (
        <button
          type="button"
          key={id}
          role="radio"
          data-id={id}
          aria-checked={id === value}
          tabIndex={id === value ? 0 : -1}
          onClick={() => onChange(id)}
        >
          {word}
        </button>
      ))}
    </span>
  );
}
