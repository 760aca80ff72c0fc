import { expect, test } from "vitest";
import { metresPerPixel, misfit, placedBy, placeOf } from "../src/model/similarity";

test("north up: right is east, down is south", () => {
  const placing = placedBy(
    [
      [0, 0],
      [100, 0],
    ],
    [
      [500, 900],
      [510, 900],
    ],
  )!;
  expect(metresPerPixel(placing)).toBeCloseTo(0.1, 12);
  expect(placeOf(placing, [0, 50])).toEqual([500, 895]);
});
test("both known points fall where they were told, turned as they may be", () => {
  for (let i = 0; i < 50; i += 1) {
    const pixels: [[number, number], [number, number]] = [
      [10 * i, 7],
      [300 - i, 40 + 9 * i],
    ];
    const places: [[number, number], [number, number]] = [
      [480_000 + i, 4_880_000],
      [480_000 + 40 * Math.cos(i), 4_880_000 + 40 * Math.sin(i)],
    ];
    const placing = placedBy(pixels, places)!;
    pixels.forEach((pixel, n) => {
      const at = placeOf(placing, pixel);
      expect(at[0]).toBeCloseTo(places[n]![0], 6);
      expect(at[1]).toBeCloseTo(places[n]![1], 6);
    });
  }
});
test("a third distance says the misfit", () => {
  const placing = placedBy(
    [
      [0, 0],
      [100, 0],
    ],
    [
      [0, 0],
      [10, 0],
    ],
  )!;
  expect(
    misfit(
      placing,
      [
        [0, 0],
        [0, 200],
      ],
      19,
    ),
  ).toEqual({ scanned: 20, by: 1, share: 1 / 19 });
  expect(
    misfit(
      placing,
      [
        [0, 0],
        [0, 200],
      ],
      0,
    ),
  ).toBeNull();
  expect(
    misfit(
      placing,
      [
        [5, 5],
        [5, 5],
      ],
      3,
    ),
  ).toBeNull();
});
test("nothing follows from one point named twice", () => {
  expect(
    placedBy(
      [
        [1, 1],
        [1, 1],
      ],
      [
        [0, 0],
        [10, 0],
      ],
    ),
  ).toBeNull();
  expect(
    placedBy(
      [
        [1, 1],
        [2, 1],
      ],
      [
        [0, 0],
        [0, 0],
      ],
    ),
  ).toBeNull();
});
