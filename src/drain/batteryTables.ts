type Rows = readonly (readonly [x: number, y: number])[];

/** Capacity at the 20 h rate left at a temperature, share. From memory: 25 °C 100, 0 °C 80 to 85, −18 °C 50 to 60 %; slower drains get somewhat more out of it. */
const capacityRows: Rows = [
  [-18, 0.55],
  [0, 0.825],
  [25, 1],
];

/** Where the acid freezes, °C by its gravity. Source: two army manuals and a maker's owner's manual (secondary), same figures. */
const freezingRows: Rows = [
  [1.05, -3],
  [1.1, -7],
  [1.15, -15],
  [1.2, -27],
  [1.225, -37],
  [1.25, -52],
  [1.265, -59],
];

/** Gravity at 27 °C by charge. Source: charts of two makers of batteries (secondary). */
const gravityRows: Rows = [
  [0, 1.12],
  [0.25, 1.155],
  [0.5, 1.19],
  [0.75, 1.225],
  [1, 1.265],
];

/** Share of the capacity that a battery gives at a temperature, −40 to 60 °C; never more than at 25 °C. */
export const capacityLeft = (celsius: number): number => Math.max(0.2, Math.min(1, alongRows(capacityRows, celsius)));

/** °C at which a battery with this charge freezes. */
export const freezesAt = (charge: number): number => alongRows(freezingRows, alongRows(gravityRows, Math.min(1, Math.max(0, charge))));

/** Times as fast as at 20 °C that a battery discharges itself. Common practice, no source: doubles every 10 K. */
export const ownLossFactor = (celsius: number): number => 2 ** ((celsius - 20) / 10);

/** Straight lines between rows, the end pieces carried on. */
function alongRows(rows: Rows, x: number): number {
  const k = Math.min(
    rows.length - 1,
    Math.max(1, rows.findIndex(([at]) => at >= x) === -1 ? rows.length - 1 : rows.findIndex(([at]) => at >= x)),
  );
  const [[x0, y0], [x1, y1]] = [rows[k - 1]!, rows[k]!];
  return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
}
