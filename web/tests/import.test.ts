import { expect, test } from "vitest";
import type { Vocabulary } from "../src/api/editing";
import { fieldsFor, mapOf, rowsOf, swapped, withField } from "../src/import/fields";

const map = { tag: { column: "Nr" }, stem_diameter: { column: "BHD", unit: "cm" } };
const header = ["Nr", "Art", "BHD"];

test("the map goes to rows and back", () => {
  const rows = rowsOf(header, map);
  expect(rows[1]).toEqual({ column: "Art", field: "", unit: "" });
  expect(mapOf(rows)).toEqual(map);
});
test("a field belongs to the column that was chosen last", () => {
  const rows = withField(rowsOf(header, map), 1, "tag");
  expect(mapOf(rows)).toEqual({ tag: { column: "Art" }, stem_diameter: { column: "BHD", unit: "cm" } });
  expect(mapOf(withField(rows, 2, "height"))).toEqual({ tag: { column: "Art" }, height: { column: "BHD" } });
});
test("two columns that were exchanged are put right in one go", () => {
  const rows = rowsOf(["a", "b"], { easting: { column: "b" }, northing: { column: "a" } });
  expect(mapOf(swapped(rows, "easting", "northing"))).toEqual({ easting: { column: "a" }, northing: { column: "b" } });
});
test("fields fit what the file holds, with places, soil without", () => {
  const vocabulary = { tree: [{ name: "tag" }], work: [{ name: "kind" }], barrier: [] } as unknown as Vocabulary;
  expect(fieldsFor("trees", vocabulary)).toContain("tag");
  expect(fieldsFor("trees", vocabulary)).toContain("easting");
  expect(fieldsFor("works", vocabulary)).not.toContain("tag");
  expect(fieldsFor("soil", null)).not.toContain("easting");
  expect(fieldsFor("boundary", null)).toContain("wkt");
});
