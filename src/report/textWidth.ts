/**
 * Advance widths of Barlow Semi Condensed in thousandths of the font size, U+0020 to U+007E, for the two weights of the
 * drawing. Source: measured from the bundled font files (@fontsource/barlow-semi-condensed 5.3.0) in a browser's canvas.
 */
const regular = [
  200, 295, 286, 634, 495, 808, 619, 141, 272, 272, 379, 468, 227, 360, 238, 395, 507, 507, 507, 507, 507, 507, 507, 507, 507, 507, 291,
  260, 468, 468, 468, 438, 791, 533, 540, 530, 544, 515, 487, 535, 560, 240, 507, 541, 488, 623, 587, 542, 522, 516, 533, 507, 507, 559,
  529, 762, 526, 514, 476, 355, 395, 355, 432, 445, 202, 471, 492, 470, 492, 478, 326, 483, 487, 233, 227, 467, 213, 742, 487, 490, 497,
  497, 341, 437, 322, 485, 445, 659, 449, 432, 408, 313, 169, 313, 492,
];
const bold = [
  200, 311, 352, 651, 508, 795, 654, 169, 329, 329, 380, 462, 238, 370, 247, 444, 544, 544, 544, 544, 544, 544, 544, 544, 544, 544, 319,
  274, 462, 462, 462, 479, 786, 577, 545, 536, 547, 511, 490, 540, 554, 246, 518, 558, 499, 631, 590, 547, 531, 527, 543, 520, 526, 554,
  555, 783, 553, 546, 485, 381, 444, 381, 448, 472, 226, 487, 505, 486, 505, 492, 342, 498, 497, 237, 235, 491, 227, 755, 497, 503, 508,
  508, 354, 457, 335, 496, 478, 698, 488, 464, 416, 360, 194, 360, 512,
];
/** Of any other character: as wide as the widest that circuits use (Ω in bold), so that a box is never too small. */
const otherwise = 850;

/** Width of a line of text in px. Figures count as tabular: every one as wide as the widest. */
export function textWidth(text: string, size: number, weight: number): number {
  const widths = weight >= 600 ? bold : regular;
  let sum = 0;
  for (const c of text) sum += widths[c.codePointAt(0)! - 32] ?? otherwise;
  return (sum * size) / 1000;
}
