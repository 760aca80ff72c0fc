// Short names for the shapes of the interface.
import type { components } from "./schema";

type Schemas = components["schemas"];
export type Site = Schemas["Site"];
export type Assessment = Schemas["Assessment"];
export type Answers = Schemas["Answers"];
export type TreeAnswer = Schemas["TreeAnswer"];
export type TreeOnPlan = Schemas["TreeOnPlan"];
export type ZoneOnPlan = Schemas["ZoneOnPlan"];
export type WorkOnPlan = Schemas["WorkOnPlan"];
export type BarrierOnPlan = Schemas["BarrierOnPlan"];
export type Range = Schemas["Range"];
export type Threshold = Schemas["Threshold"];
export type Opening = Schemas["Opening"];

// Positions are pairs; generated types of arrays with two items differ between makers, so they are
// narrowed here once.
export type Position = [number, number];
export type Line = Position[];
export type Polygon = Line[];
export interface Shape {
  lines: Line[];
  areas: Polygon[];
  points: Position[];
}
