import { describe, expect, it } from "vitest";
import { largestFirst, numbers, staggered, tagPlaces } from "../src/section/names";

const pit = { id: "pit", from_m: 1, to_m: 11, top_m: 0, bottom_m: 1.4 };
const house = { id: "house", from_m: 2, to_m: 10, top_m: 0, bottom_m: 1.3 };
const drain = { id: "drain", from_m: 0.5, to_m: 0.9, top_m: 0, bottom_m: 1 };

describe("works met by a section", () => {
  it("draws the small over the large, so that neither hides the other", () => {
    expect(largestFirst([drain, house, pit]).map((one) => one.id)).toEqual(["pit", "house", "drain"]);
  });
  it("numbers them along the line, one number a work", () => {
    const again = { ...drain, from_m: 12, to_m: 13 };
    expect([...numbers([pit, again, drain, house])]).toEqual([
      ["drain", 1],
      ["pit", 2],
      ["house", 3],
    ]);
  });
  it("keeps numbers off one another where pieces begin and end alike", () => {
    const places = tagPlaces([
      { left: 0, right: 200, foot: 100 },
      { left: 4, right: 150, foot: 98 },
      { left: 300, right: 306, foot: 60 },
    ]);
    expect(Math.abs(places[0]!.x - places[1]!.x)).toBeGreaterThanOrEqual(18);
    expect(places[2]).toEqual({ x: 303, y: 49 }); // narrower than its number: in the middle
  });
  it("sets a stem's label above one that it would stand on", () => {
    const heights = staggered([
      { x: 0, y: 50, wide: 28 },
      { x: 20, y: 50, wide: 28 },
      { x: 120, y: 50, wide: 28 },
    ]);
    expect(heights).toEqual([50, 37, 50]);
  });
});
