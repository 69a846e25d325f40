import { folded } from './headerWords.ts';

/**
 * Letters of IEC 60757 (from memory) by the words and letters that wire lists use. German two-letter codes are those of
 * DIN 47100 and of vehicle drawings (from memory). Single letters are left alone: B is black in one country and blue in the next.
 */
const letters: Readonly<Record<string, string>> = {
  BK: 'black, blk, schwarz, sw, noir, noire',
  BN: 'brown, brn, braun, br, marron, brun',
  RD: 'red, rot, rt, ro, rouge',
  OG: 'orange, org, orn, or, oranje',
  YE: 'yellow, yel, gelb, ge, jaune',
  GN: 'green, grn, grun, gruen, vert, verte',
  BU: 'blue, blu, blau, bl, bleu, bleue',
  VT: 'violet, purple, vio, violett, lila, vi, pourpre, mauve',
  GY: 'grey, gray, gry, grau, gr, gris, grise, slate',
  WH: 'white, wht, weiss, ws, blanc, blanche',
  PK: 'pink, pnk, rosa, rs, rose',
  TQ: 'turquoise, turkis, tuerkis, tk',
  GNYE: 'green yellow stripe, grungelb, gruengelb, vert jaune',
};
const code = new Map<string, string>();
for (const [iec, names] of Object.entries(letters)) {
  code.set(iec.toLowerCase(), iec);
  for (const name of names.split(', ')) code.set(name, iec);
}
/** Words between two colours. */
const joins = /\b(with|and|stripe|striped|trace|mit|und|streifen|streif|et|avec|filet|a|bande)\b/g;

/**
 * A wire's colour in IEC letters, base first: `rot/schwarz`, `RDBK`, `red with black stripe` are all `RD/BK`.
 * Undefined when a word of it is not known.
 */
export function colourCode(written: string): string | undefined {
  const text = folded(written).replace(joins, ' ').replace(/\s+/g, ' ').trim();
  if (text === '') return undefined;
  const whole = code.get(text);
  if (whole !== undefined) return whole;
  const pieces = text.split(' ').flatMap(parted);
  const codes = pieces.map((piece) => code.get(piece));
  return codes.length <= 3 && codes.every((c) => c !== undefined) ? codes.join('/') : undefined;
}

/** `rtsw` is two codes of two letters, `rotschwarz` two words. */
function parted(piece: string): readonly string[] {
  if (code.has(piece)) return [piece];
  for (let k = 2; k <= piece.length - 2; k++) {
    const [first, second] = [piece.slice(0, k), piece.slice(k)];
    if (code.has(first) && code.has(second)) return [first, second];
  }
  return [piece];
}

/** Whether it is written in IEC letters already. */
export function isColourCode(written: string): boolean {
  return written.split('/').every((piece) => Object.hasOwn(letters, piece) || piece === 'SR' || piece === 'GD');
}
