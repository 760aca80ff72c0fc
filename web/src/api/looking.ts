// The calls that only look: nothing is saved by any of them.
import { call, sending } from "./client";
import type { Line } from "./names";
import type { components } from "./schema";

type Schemas = components["schemas"];
export type TreeSheet = Schemas["TreeSheet"];
export type Named = Schemas["Named"];
export type Remedy = Schemas["Remedy"];
export type RootSystem = Schemas["RootSystem"];
export type RootPiece = Schemas["RootPiece"];
export type GroundGrid = Schemas["GroundGrid"];
export type Block = Schemas["Block"];
export type RootTint = Schemas["RootTint"];
export type RootProfiles = Schemas["RootProfiles"];
export type ProfilePoint = Schemas["ProfilePoint"];
export type SectionView = Schemas["SectionView"];
export type SectionRoot = Schemas["SectionRoot"];
export type Offsets = Schemas["Offsets"];
export type Protection = Schemas["Protection"];
export type OpeningOnPlan = Schemas["OpeningOnPlan"];

// As `rootstead why --json` prints it (docs/formats/json.md).
export interface Figure {
  name: string;
  value?: number | null;
  unit?: string;
  word?: string;
  low?: number;
  high?: number;
  inputs?: Record<string, string>;
  formula?: string;
  source?: string;
  status: string;
  work?: string;
  rule?: string;
}
export interface SectionAsked {
  work?: string;
  line?: Line;
  half_width_m?: number;
}

const ofTree = (id: string) => `/api/trees/${encodeURIComponent(id)}`;

export const looking = {
  tree: (id: string) => call<TreeSheet>(ofTree(id)),
  roots: (id: string) => call<RootSystem>(`${ofTree(id)}/roots`),
  tint: (id: string) => call<RootTint>(`${ofTree(id)}/tint`),
  profiles: (id: string) => call<RootProfiles>(`${ofTree(id)}/profiles`),
  section: (asked: SectionAsked) => call<SectionView>("/api/section", sending("POST", asked)),
  offsets: (work: string, tree: string) =>
    call<Offsets>(`/api/works/${encodeURIComponent(work)}/offsets?tree=${encodeURIComponent(tree)}`),
  protection: () => call<Protection>("/api/protection"),
};
export type Looking = typeof looking;
