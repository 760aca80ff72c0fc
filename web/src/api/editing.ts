// The calls that change the project, read foreign files or print.
import { call, sending } from "./client";
import type { Position, Shape, TreeAnswer, WorkOnPlan } from "./names";
import type { components } from "./schema";

type Schemas = components["schemas"];
export type Sort = "tree" | "work" | "barrier";
export interface Thing {
  sort: Sort;
  id: string;
  fields: Record<string, string>;
  shape: Shape | null;
}
export type Change = { put: Thing } | { remove: { sort: Sort; id: string } };
export interface Edited {
  version: string;
  draws: number;
  inverse: Change[];
  works: WorkOnPlan[];
  whole: boolean;
  trees: TreeAnswer[];
}
export type Field = Schemas["Field"];
export type Vocabulary = Schemas["Vocabulary"];
export type FileSent = Schemas["FileSent"];
export type ColumnMap = Record<string, { column: string; unit?: string }>;
export interface ImportAsked {
  file: FileSent;
  as?: string;
  columns?: ColumnMap;
  crs?: string;
  length_unit?: string;
}
export type ImportPreview = Schemas["ImportPreview"];
export type Added = Schemas["Added"];
export interface Underlay {
  name: string;
  image: { png_base64: string; system_named: boolean; west: number; south: number; east: number; north: number } | null;
  lines: Position[][];
}
export type JobAsked = Schemas["JobAsked"];
export type Job = Schemas["Job"];

const named = (path: string, id: string) => `/api/${path}/${encodeURIComponent(id)}`;

export const editing = {
  thing: (sort: Sort, id: string) => call<Thing>(named(sort === "work" ? "works" : "survey", id)),
  vocabulary: () => call<Vocabulary>("/api/vocabulary"),
  edit: (version: string, changes: readonly Change[]) =>
    call<Edited>("/api/edits", sending("POST", { version, changes })),
  preview: (asked: ImportAsked) => call<ImportPreview>("/api/imports/preview", sending("POST", asked)),
  add: (version: string, asked: ImportAsked) => call<Added>("/api/imports", sending("POST", { version, ...asked })),
  underlay: (file: FileSent, lengthUnit = "") =>
    call<Underlay>("/api/underlays", sending("POST", { ...file, ...(lengthUnit && { length_unit: lengthUnit }) })),
  begin: (asked: JobAsked) => call<Job>("/api/jobs", sending("POST", asked)),
  job: (id: string) => call<Job>(named("jobs", id)),
  cancel: (id: string) => call<Job>(named("jobs", id), { method: "DELETE" }),
};
export type Editing = typeof editing;
export const fileAddress = (job: string, name: string): string =>
  `${named("jobs", job)}/files/${encodeURIComponent(name)}`;
