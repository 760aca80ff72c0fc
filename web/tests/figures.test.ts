import { expect, test } from "vitest";
import type { Figure } from "../src/api/looking";
import { gathered } from "../src/sheet/gathered";
import { find, isRange, read, topics, valueText } from "../src/trail/figures";

const figure = (name: string, more: Partial<Figure> = {}): Figure => ({ name, status: "published", ...more });

test("a figure is read under either of its names", () => {
  expect(read({ figure: "soil.strength", status: "published" }).name).toBe("soil.strength");
  expect(read({ name: "soil.strength", status: "published" }).name).toBe("soil.strength");
});
test("values have their unit in the reader's system, ranges all three", () => {
  expect(valueText(figure("a.radius", { value: 15, unit: "m" }), "metric", "en")).toBe("15\u00a0m");
  expect(valueText(figure("a.radius", { value: 15, unit: "m" }), "us", "en")).toBe("49.2\u00a0ft");
  expect(valueText(figure("a.area", { value: 706.858, unit: "m2" }), "metric", "en")).toBe("707\u00a0m²");
  expect(valueText(figure("soil.strength", { value: 58.1, low: 49.1, high: 64.5, unit: "kPa" }), "us", "en")).toBe(
    "49.1–58.1–64.5\u00a0kPa",
  );
  expect(valueText(figure("soil.texture", { word: "loam" }), "metric", "en")).toBe("loam");
  expect(valueText(figure("x.y", { value: null }), "metric", "en")).toBe("–");
});
test("shares are per cent, other figures without a unit are not", () => {
  expect(valueText(figure("r.zone.affected-share", { value: 0.125, unit: "" }), "metric", "en")).toBe("13\u00a0%");
  const loss = { value: 0.24, low: 0.15, high: 0.36, unit: "" };
  expect(valueText(figure("roots.absorbing-loss", loss), "metric", "en")).toBe("15–24–36\u00a0%");
  expect(valueText(figure("water.coefficient", { value: 0.55, unit: "" }), "metric", "en")).toBe("0.55");
});
test("a range whose ends are one is none", () => {
  expect(isRange(figure("a", { low: 1, high: 1 }))).toBe(false);
  expect(isRange(figure("a", { low: 1, high: 2 }))).toBe(true);
  expect(isRange(figure("a", { value: 1 }))).toBe(false);
});
test("figures are found by name and work, and grouped by their first word", () => {
  const list = [
    figure("cutting.nearest", { work: "W1" }),
    figure("roots.extent", { source: "Somebody 1999" }),
    figure("cutting.nearest", { work: "W2" }),
  ];
  expect(find(list, "cutting.nearest", "W2")).toBe(list[2]);
  expect(find(list, "cutting.none")).toBeUndefined();
  expect(topics(list, "").map((topic) => [topic.topic, topic.figures.length])).toEqual([
    ["cutting", 2],
    ["roots", 1],
  ]);
  expect(topics(list, "somebody EXTENT").map((topic) => topic.topic)).toEqual(["roots"]);
  expect(topics(list, "nobody")).toEqual([]);
});
test("lines of one name are gathered, told once", () => {
  const lines = [
    { name: "fence", text: "a" },
    { name: "water", text: "b" },
    { name: "fence", text: "c" },
    { name: "fence", text: "a" },
  ];
  expect(gathered(lines)).toEqual([
    { name: "fence", texts: ["a", "c"] },
    { name: "water", texts: ["b"] },
  ]);
});
