import { Cell } from "./cell";

export interface Route {
  at: "builds" | "new" | "build" | "bay";
  build: string;
  sheet: string;
}

/** read tells which screen an address after "#" names. */
export function read(hash: string): Route {
  const [first = "", second = "", third = ""] = hash.replace(/^#\/?/, "").split("/");
  if (first === "new") return { at: "new", build: "", sheet: "" };
  if (first === "bay" && second !== "")
    return { at: "bay", build: decodeURIComponent(second), sheet: decodeURIComponent(third) };
  if (first === "b" && second !== "")
    return { at: "build", build: decodeURIComponent(second), sheet: third === "" ? "job" : third };
  return { at: "builds", build: "", sheet: "" };
}

export const toBuild = (id: string, sheet = "job") => `#/b/${encodeURIComponent(id)}/${sheet}`;

export const route = new Cell<Route>(read(typeof location === "undefined" ? "" : location.hash));

export function follow(): void {
  window.addEventListener("hashchange", () => route.set(read(location.hash)));
}

export function go(hash: string): void {
  location.hash = hash;
}
