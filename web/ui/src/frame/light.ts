// Day or night: as the reader's system says, until the reader says otherwise.
import { Cell } from "../store/cell";

const key = "berthwright.light";
const dark = () => window.matchMedia("(prefers-color-scheme: dark)");

export const light = new Cell<"day" | "night">("day");

function apply(): void {
  const chosen = localStorage.getItem(key);
  const now = chosen === "day" || chosen === "night" ? chosen : dark().matches ? "night" : "day";
  light.set(now);
  document.documentElement.dataset.light = now;
}

export function followLight(): void {
  apply();
  dark().addEventListener("change", apply);
}

export function switchLight(): void {
  localStorage.setItem(key, light.get() === "day" ? "night" : "day");
  apply();
}
