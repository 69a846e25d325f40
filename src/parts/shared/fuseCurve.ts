/** Forms of fuse that differ in their curve. Mini follows the blade table. */
export type FuseForm = 'blade' | 'mini' | 'maxi' | 'ceramic' | 'glass';

/** A row of a time-current table: at this share of the rating a fuse opens within the two times, s. */
export type CurveRow = { readonly share: number; readonly least_s: number; readonly most_s: number };

/** The last share at which it must hold for hours, and the rows above. */
export type Curve = { readonly holds: number; readonly rows: readonly CurveRow[]; readonly source: string };

/** Holding means 100 h. Source: maker's data sheets of mini, blade and maxi fuses (secondary). */
const hundredHours_s = 360_000;

const row = (share: number, least_s: number, most_s: number): CurveRow => ({ share, least_s, most_s });

/**
 * Opening times. A fuse may open anywhere between the two times of its row.
 */
export const fuseCurves: Readonly<Record<FuseForm, Curve>> = {
  blade: {
    holds: 1.1,
    rows: [row(1.35, 0.75, 600), row(1.6, 0.25, 50), row(2, 0.15, 5), row(3.5, 0.08, 0.5), row(6, 0.03, 0.1)],
    source: 'maker’s data sheet of blade fuses after ISO 8820-3 (secondary); 135, 350 and 600 % below 35 A from memory',
  },
  mini: {
    holds: 1.1,
    rows: [row(1.35, 0.75, 600), row(1.6, 0.25, 50), row(2, 0.15, 5), row(3.5, 0.08, 0.5), row(6, 0.03, 0.1)],
    source: 'maker’s data sheet of mini blade fuses after ISO 8820-3 (secondary); 160 % from memory',
  },
  maxi: {
    holds: 1,
    rows: [row(1.35, 60, 1800), row(2, 2, 50), row(3.5, 0.2, 7), row(6, 0.04, 1)],
    source: 'maker’s data sheet of maxi fuses after ISO 8820-3 (secondary)',
  },
  ceramic: {
    holds: 1.1,
    rows: [row(1.5, 300, 3600), row(2, 5, 120), row(3.5, 0.3, 5), row(6, 0.05, 0.5)],
    source: '150 % five minutes to an hour: from memory of DIN 72581; the other rows are estimates',
  },
  glass: {
    holds: 1,
    rows: [row(1.35, 36, 3600), row(2, 1.2, 120), row(3.5, 0.1, 5), row(6, 0.03, 0.5)],
    source: 'longest times at 135 and 200 %: a fuse guide on UL 248-14 (secondary); all others are estimates',
  },
};

export type OpeningTime = { readonly least_s: number; readonly mean_s: number; readonly most_s: number };

/**
 * Opening time of a fuse at a share of its rating: log-log between the rows, the geometric mean of least and most as
 * the middle; beyond the last row by constant I²t.
 *
 * @param share amperes over rating, >= 0
 * @returns all `Infinity` up to the share that it must hold; between that and the first row the longest is `Infinity`
 */
export function openingTime(share: number, form: FuseForm): OpeningTime {
  return curveTime(share, fuseCurves[form]);
}

/** The same for any curve. */
export function curveTime(share: number, { holds, rows }: Curve): OpeningTime {
  const first = rows[0]!;
  const last = rows.at(-1)!;
  if (share <= holds) return { least_s: Number.POSITIVE_INFINITY, mean_s: Number.POSITIVE_INFINITY, most_s: Number.POSITIVE_INFINITY };
  if (share >= last.share) {
    const shrink = (last.share / share) ** 2;
    return times(last.least_s * shrink, last.most_s * shrink);
  }
  if (share < first.share) {
    const least_s = between(share, holds, hundredHours_s, first.share, first.least_s);
    const mean_s = between(share, holds, hundredHours_s, first.share, Math.sqrt(first.least_s * first.most_s));
    return { least_s, mean_s, most_s: Number.POSITIVE_INFINITY };
  }
  const k = rows.findIndex((r) => r.share > share);
  const [a, b] = [rows[k - 1]!, rows[k]!];
  return times(between(share, a.share, a.least_s, b.share, b.least_s), between(share, a.share, a.most_s, b.share, b.most_s));
}

/** The share at which it opens for certain, sooner or later: the first row. */
export function certainShare(form: FuseForm): number {
  return fuseCurves[form].rows[0]!.share;
}

function times(least_s: number, most_s: number): OpeningTime {
  return { least_s, mean_s: Math.sqrt(least_s * most_s), most_s };
}

/** Straight line through two points when both axes are logarithmic. */
function between(x: number, x0: number, y0: number, x1: number, y1: number): number {
  return y0 * (x / x0) ** (Math.log(y1 / y0) / Math.log(x1 / x0));
}
