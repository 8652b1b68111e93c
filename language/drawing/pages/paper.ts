/** Sizes of paper, and how small a text may be on it. */

export interface Size {
  readonly width: number;
  readonly height: number;
}

export interface Paper {
  /** Millimetres, a size for each way to turn it. */
  readonly sizes: readonly [Size, Size];
  /** Millimetres that stay free on all sides. */
  readonly margin: number;
}

/** The sheets that a drawing is printed on; Letter is 11 in by 8.5 in. */
export const papers = {
  a4: turnable(297, 210),
  letter: turnable(279.4, 215.9),
} as const satisfies Readonly<Record<string, Paper>>;

/** A figure that fits on a page of A4 and of Letter with margins of 8 mm. */
export const figure: Paper = {
  sizes: [
    { width: 279.4 - 16, height: 210 - 16 },
    { width: 210 - 16, height: 279.4 - 16 },
  ],
  margin: 0,
};

/** The least size of a text that is read without effort at the bench, in points. */
export const leastPoints = 6;

export const millimetresPerPoint = 25.4 / 72;

function turnable(long: number, short: number): Paper {
  return {
    sizes: [
      { width: long, height: short },
      { width: short, height: long },
    ],
    margin: 10,
  };
}
