import type {
  BayEntry,
  BayView,
  BuildList,
  BuildRow,
  BuildView,
  ChangeRequest,
  ChangeResult,
  Choices,
  Conflict,
  DiffView,
  FormView,
  History,
  NewBuild,
  PartList,
  PasteMatch,
  PasteRequest,
  Preview,
  Problem,
  RecordView,
  Scene,
  Slip,
  SolidsView,
  SwapView,
  TextRequest,
  TextView,
  UndoRequest,
  WeighingRequest,
} from "../api.gen";

/** Refused is an answer of the server that says no; Lost means that no answer came. */
export class Refused extends Error {
  constructor(
    readonly status: number,
    readonly problem: Problem,
  ) {
    super(problem.text);
  }
}

export class Clash extends Error {
  constructor(readonly conflict: Conflict) {
    super("changed meanwhile");
  }
}

export class Lost extends Error {}

async function call<T>(method: string, path: string, body?: unknown, signal?: AbortSignal): Promise<T> {
  const raw = typeof body === "string" || body instanceof Blob;
  const kind = body instanceof Blob ? body.type : raw ? "application/yaml" : "application/json";
  let answer: Response;
  try {
    answer = await fetch(`/api${path}`, {
      method,
      headers: body === undefined ? {} : { "Content-Type": kind },
      body: body === undefined ? undefined : raw ? body : JSON.stringify(body),
      signal,
    });
  } catch (reason) {
    if (signal?.aborted) throw reason;
    throw new Lost("the server does not answer");
  }
  const text = await answer.text().catch(() => {
    throw new Lost("the answer broke off");
  });
  const value = parsed(text);
  if (answer.ok) return value as T;
  if (answer.status === 409 && isConflict(value)) throw new Clash(value);
  if (answer.status >= 502 && answer.status <= 504) throw new Lost("the server does not answer");
  throw new Refused(answer.status, asProblem(value, answer.status));
}

function parsed(text: string): unknown {
  try {
    return text === "" ? undefined : JSON.parse(text);
  } catch {
    return text;
  }
}

function isConflict(value: unknown): value is Conflict {
  return typeof value === "object" && value !== null && Array.isArray((value as Conflict).paths);
}

function asProblem(value: unknown, status: number): Problem {
  if (typeof value === "object" && value !== null && typeof (value as Problem).text === "string")
    return value as Problem;
  return { code: `http-${status}`, text: `the server answered ${status}` };
}

/** address makes a path under /api with its questions; empty ones are left out. */
export function address(path: string, ask: Record<string, string | number | undefined> = {}): string {
  const query = Object.entries(ask)
    .filter(([, value]) => value !== undefined && value !== "")
    .map(([key, value]) => `${key}=${encodeURIComponent(String(value))}`)
    .join("&");
  return query === "" ? path : `${path}?${query}`;
}

const of = (id: string) => `/builds/${encodeURIComponent(id)}`;

export const api = {
  builds: (deleted = false) => call<BuildList>("GET", deleted ? "/builds?deleted=1" : "/builds"),
  choices: () => call<Choices>("GET", "/choices"),
  make: (body: NewBuild) => call<BuildView>("POST", "/builds", body),
  importText: (text: string) => call<BuildView>("POST", "/import", text),
  remove: (id: string) => call<BuildRow>("DELETE", of(id)),
  restore: (id: string) => call<BuildRow>("POST", `${of(id)}/restore`),
  view: (id: string, state: string, client: string) =>
    call<BuildView>("GET", address(of(id), { state, client })),
  change: (id: string, body: ChangeRequest) => call<ChangeResult>("POST", `${of(id)}/changes`, body),
  preview: (id: string, body: ChangeRequest, signal?: AbortSignal) =>
    call<Preview>("POST", `${of(id)}/preview`, body, signal),
  undo: (id: string, body: UndoRequest) => call<ChangeResult>("POST", `${of(id)}/undo`, body),
  paste: (id: string, body: PasteRequest) => call<PasteMatch>("POST", `${of(id)}/paste`, body),
  text: (id: string) => call<TextView>("GET", `${of(id)}/text`),
  putText: (id: string, body: TextRequest) => call<TextView>("PUT", `${of(id)}/text`, body),
  dropDraft: (id: string) => call<TextView>("DELETE", `${of(id)}/text`),
  scene: (id: string, ask: { view: string; state: string; against?: string }) =>
    call<Scene>("GET", address(`${of(id)}/scene`, ask)),
  slip: (id: string, key: string, state: string) =>
    call<Slip>("GET", address(`${of(id)}/slip`, { key, state })),
  history: (id: string) => call<History>("GET", `${of(id)}/history`),
  diff: (id: string, from: string, to: string) =>
    call<DiffView>("GET", address(`${of(id)}/diff`, { from, to })),
  swap: (id: string, van: string) => call<SwapView>("GET", address(`${of(id)}/swap`, { van })),
  record: (id: string) => call<RecordView>("GET", `${of(id)}/record`),
  weigh: (id: string, body: WeighingRequest) => call<RecordView>("POST", `${of(id)}/record`, body),
  parts: (q: string, group: string) => call<PartList>("GET", address("/parts", { q, group })),
  paper: (id: string, name: string, ask: Record<string, string | number | undefined> = {}) =>
    `/api${address(`${of(id)}/papers/${name}`, ask)}`,
  form: (id: string, path: string) => call<FormView>("GET", address(`${of(id)}/form`, { path })),
  solids: (id: string, state: string) => call<SolidsView>("GET", address(`${of(id)}/solids`, { state })),
  bay: (id: string) => call<BayView>("GET", `${of(id)}/bay`),
  press: (id: string, body: BayEntry) => call<BayView>("POST", `${of(id)}/bay`, body),
  photo: (id: string, ask: { entry: string; item: string; by: string; at: string }, body: Blob) =>
    call<BayView>("POST", address(`${of(id)}/photos`, ask), body),
  photoOf: (id: string, entry: string) => `/api${of(id)}/photos/${encodeURIComponent(entry)}`,
  exported: (id: string) => `/api${of(id)}/export`,
  events: (id: string) => `/api${of(id)}/events`,
};
