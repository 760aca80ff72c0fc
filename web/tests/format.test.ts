import { expect, test } from "vitest";
import de from "../src/messages/de.json";
import en from "../src/messages/en.json";
import { area, fromMetres, length, percent, roundLength, scaleBar, stem, toMetres } from "../src/words/format";

test("shares are per cent with no more digits than they carry", () => {
  expect(percent(0, "en")).toBe("0\u00a0%");
  expect(percent(0.0525, "de")).toMatch(/^5,[23]\u00a0%$/);
  expect(percent(0.0996, "en")).toBe("10\u00a0%");
  expect(percent(0.876, "en")).toBe("88\u00a0%");
});
test("areas in both systems", () => {
  expect([area(10, "metric", "en"), area(10, "us", "en")]).toEqual(["10.0\u00a0m²", "108\u00a0ft²"]);
});
test("lengths in both systems", () => {
  expect(length(0.6, "metric", "en")).toBe("0.60\u00a0m");
  expect(length(3.048, "us", "en")).toBe("10.0\u00a0ft");
  expect(stem(0.508, "us", "en")).toBe("20.0\u00a0in");
  expect(stem(0.45, "metric", "de")).toBe("450\u00a0mm");
  expect(fromMetres(toMetres(2.5, "us"), "us")).toBe(2.5);
});
test("round lengths are 1, 2 or 5 times a power of ten and fit", () => {
  expect([0.07, 1, 1.9, 4.99, 5, 99, 730].map(roundLength)).toEqual([0.05, 1, 1, 2, 5, 50, 500]);
});
test("the bar is as long as it says", () => {
  const metric = scaleBar(0.1, "metric", "en");
  expect(metric.label).toBe("10\u00a0m");
  expect(metric.pixels).toBeCloseTo(100, 9);
  const feet = scaleBar(0.1, "us", "en");
  expect(feet.label).toBe("20\u00a0ft");
  expect(feet.pixels * 0.1).toBeCloseTo(20 * 0.3048, 9);
  expect(scaleBar((0.0254 / 96) * 200, "metric", "en").ratio).toBe(200);
});
test("both languages say the same things with the same blanks", () => {
  expect(Object.keys(de)).toEqual(Object.keys(en));
  const blanks = (text: string) => (text.match(/\{\w+\}/g) ?? []).sort();
  for (const key of Object.keys(en) as (keyof typeof en)[])
    expect([key, blanks(de[key])]).toEqual([key, blanks(en[key])]);
});
