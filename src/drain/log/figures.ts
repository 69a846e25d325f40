/** A number as a logger writes it, with a point or a comma; NaN for anything else. */
export function plainNumber(text: string): number {
  const comma = text.indexOf(',');
  const figure = comma < 0 ? text : `${text.slice(0, comma)}.${text.slice(comma + 1)}`;
  // Number('') would be 0, and hex, binary and `Infinity` are no readings.
  return /^\s*[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d{1,3})?\s*$/.test(figure) ? Number(figure) : Number.NaN;
}

const time = /^\s*(?:(\d{4})-(\d{2})-(\d{2})[T ])?(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,](\d+))?)?\s*(Z|[-+]\d{2}:?\d{2})?\s*$/;

/**
 * Seconds of a clock time: `07:30:00` since midnight, `2026-01-31T07:30:00+01:00` since 1970 at Greenwich; without
 * a zone as if it were there, since only differences count.
 */
export function clockSeconds(text: string): { readonly seconds: number; readonly dated: boolean } | undefined {
  const plain = plainIso(text);
  if (plain !== undefined) return { seconds: plain, dated: true };
  const read = time.exec(text);
  if (!read) return undefined;
  const [, year, month, day, hour, minute, second = '0', parts = '0', zone] = read;
  const [h, m, s] = [Number(hour), Number(minute), Number(second) + Number(`0.${parts}`)];
  if (h > 24 || m > 59 || s >= 61) return undefined;
  const ofDay = 3600 * h + 60 * m + s;
  if (year === undefined) return { seconds: ofDay, dated: false };
  const days = daysFrom1970(Number(year), Number(month), Number(day));
  return days === undefined ? undefined : { seconds: 86_400 * days + ofDay - zoneSeconds(zone), dated: true };
}

/** Nearly every row of a dated log looks like `2026-01-31T07:30:00`: read without a pattern. */
function plainIso(text: string): number | undefined {
  if (text.length !== 19 || text[4] !== '-' || text[7] !== '-' || text[13] !== ':' || text[16] !== ':') return undefined;
  if (text[10] !== 'T' && text[10] !== ' ') return undefined;
  const two = (at: number) => 10 * (text.charCodeAt(at) - 48) + text.charCodeAt(at + 1) - 48;
  for (let k = 0; k < 19; k++) {
    const c = text.charCodeAt(k);
    if ((c < 48 || c > 57) && k !== 4 && k !== 7 && k !== 10 && k !== 13 && k !== 16) return undefined;
  }
  const [h, m, s] = [two(11), two(14), two(17)];
  if (h > 24 || m > 59 || s > 60) return undefined;
  const days = daysFrom1970(100 * two(0) + two(2), two(5), two(8));
  return days === undefined ? undefined : 86_400 * days + 3600 * h + 60 * m + s;
}

function zoneSeconds(zone: string | undefined): number {
  if (zone === undefined || zone === 'Z') return 0;
  return (zone.startsWith('-') ? -1 : 1) * (3600 * Number(zone.slice(1, 3)) + 60 * Number(zone.slice(-2)));
}

/** Days since 1 January 1970 in the Gregorian calendar; years counted from March, so that a leap day comes last. */
function daysFrom1970(year: number, month: number, day: number): number | undefined {
  if (month < 1 || month > 12 || day < 1 || day > 31) return undefined;
  const y = month <= 2 ? year - 1 : year;
  const sinceMarch = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  return 365 * y + Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400) + sinceMarch - 719_468;
}
