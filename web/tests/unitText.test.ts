import { expect, test } from "vitest";
import { metresOf, saidOtherwise, unitFor, withUnit } from "../src/model/unitText";

test("lengths are read with their unit and never without", () => {
  expect(metresOf("900 mm")).toBeCloseTo(0.9, 12);
  expect(metresOf("3 ft")).toBeCloseTo(0.9144, 12);
  expect(metresOf("1,2 m")).toBeCloseTo(1.2, 12);
  expect(metresOf("3")).toBeNull();
  expect(metresOf("sandy loam")).toBeNull();
});
test("a bare number gets the unit of the switch and of the field", () => {
  expect(withUnit("3", "0.6 m", "us")).toBe("3 ft");
  expect(withUnit("3", "0.6 m", "metric")).toBe("3 m");
  expect(withUnit("16", "450 mm", "us")).toBe("16 in");
  expect(withUnit(" 3 m ", "0.6 m", "us")).toBe("3 m"); // what is written stays
  expect(withUnit("5'6\"", "0.6 m", "us")).toBe("5'6\"");
  expect(withUnit("12", "40 t", "us")).toBe("12"); // no length: nothing is guessed
  expect(unitFor("machine", "us")).toBeNull();
});
test("the other system is said beside, never the same one", () => {
  expect(saidOtherwise("0.9 m", "us")).toBe("2.95 ft");
  expect(saidOtherwise("3 ft", "metric")).toBe("0.91 m");
  expect(saidOtherwise("12 in", "metric")).toBe("305 mm");
  expect(saidOtherwise("0.9 m", "metric")).toBeNull();
});
