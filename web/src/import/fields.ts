// Our fields that a column may be, by what the file holds (docs/formats/column-map.md), and the
// map between the two directions: the server knows our field to their column, the page shows
// their columns with our field beside each.
import type { ColumnMap, Vocabulary } from "../api/editing";

export const KINDS = ["trees", "works", "barriers", "ground", "evidence", "soil", "boundary", "gates"] as const;
export const POSITIONS = ["easting", "northing", "longitude", "latitude", "lat_lon", "lon_lat", "wkt"];
export const UNITS = ["m", "cm", "mm", "ft", "in"];

const EVIDENCE =
  "id kind tree width depth counted_from root_diameter root_depth root_x root_y alive date seen_by notes".split(" ");
const SOIL =
  "top bottom texture bulk_density air_filled resistance sand silt clay organic_matter water water_table rooting_depth drainage compacted notes".split(
    " ",
  );

export function fieldsFor(as: string, vocabulary: Vocabulary | null): string[] {
  const sort = { trees: "tree", works: "work", barriers: "barrier" }[as] as keyof Vocabulary | undefined;
  const named = sort ? (vocabulary?.[sort].map((field) => field.name) ?? []) : [];
  const own: Record<string, string[]> = { evidence: EVIDENCE, soil: SOIL, gates: ["id", "width"] };
  return [...new Set([...named, ...(own[as] ?? []), ...(as === "soil" ? [] : POSITIONS)])];
}

export interface Row {
  column: string;
  field: string; // empty: not read
  unit: string; // empty: as written in the cell or the header
}
export function rowsOf(header: readonly string[], map: ColumnMap): Row[] {
  return header.map((column) => {
    const found = Object.entries(map).find(([, one]) => one.column === column);
    return { column, field: found?.[0] ?? "", unit: found?.[1].unit ?? "" };
  });
}
export function mapOf(rows: readonly Row[]): ColumnMap {
  const used = rows.filter((row) => row.field !== "");
  return Object.fromEntries(
    used.map(({ field, column, unit }) => [field, unit === "" ? { column } : { column, unit }]),
  );
}
// A field belongs to one column: the one chosen last.
export function withField(rows: readonly Row[], n: number, field: string): Row[] {
  return rows.map((row, i) => {
    if (i === n) return { ...row, field, unit: row.field === field ? row.unit : "" };
    return field !== "" && row.field === field ? { ...row, field: "" } : row;
  });
}
export function swapped(rows: readonly Row[], a: string, b: string): Row[] {
  const other = (field: string) => (field === a ? b : field === b ? a : field);
  return rows.map((row) => ({ ...row, field: other(row.field) }));
}
