import { clockSeconds, plainNumber } from './figures.ts';

/** Where time and current stand in a row, and what their figures mean. */
export type Columns = {
  readonly separator: string;
  readonly time: number;
  readonly current: number;
  /** `never` when the time is a plain number with a unit. */
  readonly clock: 'never' | 'always';
  readonly secondsPerUnit: number;
  readonly amperesPerUnit: number;
};
type ColumnsRead =
  | { readonly ok: true; readonly value: Columns }
  | { readonly ok: false; readonly what: string; readonly mend: readonly string[] };

const timeUnits: Readonly<Record<string, number>> = {
  s: 1,
  sec: 1,
  second: 1,
  seconds: 1,
  ms: 1e-3,
  min: 60,
  minutes: 60,
  h: 3600,
  hours: 3600,
};
const currentUnits: Readonly<Record<string, number>> = {
  A: 1,
  amp: 1,
  amps: 1,
  ampere: 1,
  amperes: 1,
  mA: 1e-3,
  milliamperes: 1e-3,
  milliamps: 1e-3,
  µA: 1e-6,
  uA: 1e-6,
};
const timeNames = /^(?:time|t|date|datetime|timestamp|date time|elapsed|clock|zeit)$/i;
const currentNames = /^(?:current|i|amps?|amperes?|channel ?1|ch ?1|clamp|draw|drain|strom)$/i;

const examples = ['time [s];current [mA]', 'time,current (A)'];

/** True for a line that holds figures where names are wanted. */
export function looksLikeData(line: string): boolean {
  const fields = line.split(separatorOf(line));
  return fields.every((f) => f.trim() !== '' && (!Number.isNaN(plainNumber(f)) || clockSeconds(f) !== undefined));
}

const separatorOf = (line: string): string => (line.includes(';') ? ';' : line.includes('\t') ? '\t' : ',');

/** The first line of a log: names with their units in brackets, behind a slash or as a word of their own. */
export function columnsOf(line: string): ColumnsRead {
  const separator = separatorOf(line);
  const fields = line.split(separator).map(nameAndUnit);
  const wrong = (what: string): ColumnsRead => ({ ok: false, what, mend: examples });
  if (fields.length < 2) return wrong('the first line names one column only');
  const byUnit = fields.findIndex((f) => f.unit !== undefined && Object.hasOwn(currentUnits, f.unit));
  const named = fields.findIndex((f) => currentNames.test(f.name));
  const current = named >= 0 ? named : byUnit;
  const time = fields.findIndex(
    (f, k) => k !== current && (timeNames.test(f.name) || (f.unit !== undefined && Object.hasOwn(timeUnits, f.unit))),
  );
  if (current < 0) return wrong('no column of the first line is a current');
  if (time < 0) return wrong('no column of the first line is a time');
  const unit = fields[current]!.unit;
  if (unit === undefined || !Object.hasOwn(currentUnits, unit))
    return wrong(unit === undefined ? 'the current has no unit in the first line' : `\`${unit}\` is no unit of a current`);
  const timeUnit = fields[time]!.unit;
  const plain = timeUnit !== undefined && Object.hasOwn(timeUnits, timeUnit);
  return {
    ok: true,
    value: {
      separator,
      time,
      current,
      clock: plain ? 'never' : 'always',
      secondsPerUnit: plain ? timeUnits[timeUnit]! : 1,
      amperesPerUnit: currentUnits[unit]!,
    },
  };
}

function nameAndUnit(field: string): { readonly name: string; readonly unit: string | undefined } {
  const text = field.trim().replaceAll('"', '').replace('μ', 'µ');
  const form = /^(.*?)\s*(?:[[(]\s*(.+?)\s*[\])]|\/\s*(\S+)|\s+in\s+(\S+))$/.exec(text);
  if (form) return { name: form[1]!.trim(), unit: form[2] ?? form[3] ?? form[4] };
  const tail = /^(.*\S)[\s_]+(\S+)$/.exec(text);
  const isUnit = (word: string) => Object.hasOwn(currentUnits, word) || Object.hasOwn(timeUnits, word);
  if (tail && isUnit(tail[2]!)) return { name: tail[1]!, unit: tail[2]! };
  return isUnit(text) ? { name: text, unit: text } : { name: text, unit: undefined };
}
