import type { Problem } from '../../circuit/problem.ts';
import { type Columns, columnsOf, looksLikeData } from './columns.ts';
import { clockSeconds, plainNumber } from './figures.ts';

/** A measured log: seconds since its first row, and amperes. */
export type Log = {
  readonly seconds: Float64Array;
  readonly amperes: Float64Array;
  /** Rows that were left out, one warning for each of the first, one for the rest. */
  readonly warnings: readonly Problem[];
  readonly skipped: number;
  /** The clamp sat the other way round: signs were turned. */
  readonly turned: boolean;
};
export type LogRead = { readonly ok: true; readonly value: Log } | { readonly ok: false; readonly problems: readonly Problem[] };

/** Rows left out that are named one by one. */
const namedRows = 5;
/** More than this share of unreadable rows, and the file is something else. */
const mostSkipped = 0.2;
const day_s = 86_400;
const noHeader = {
  ok: false,
  what: 'the first line has no names with units',
  mend: ['time [s];current [mA]', 'time,current (A)'],
} as const;

/**
 * Reads a log of time and current in pieces, as they come from a file. First line: names with units, `time [s];current [mA]`;
 * separators `;`, tab or `,`; decimal comma where the separator is another; times as seconds (or ms, min, h), `hh:mm:ss`,
 * or `2026-01-31T07:30:00`. Lines that begin with # are left out.
 *
 * Problems: log-header, log-empty, log-not-read; warnings: log-row, each with its line.
 * Cost: linear; a million rows in well under a second.
 */
export class LogReader {
  private readonly file: string;
  private rest = '';
  private line = 0;
  private columns: Columns | undefined;
  private failed: readonly Problem[] | undefined;
  private seconds = new Float64Array(1024);
  private amperes = new Float64Array(1024);
  private count = 0;
  private first = Number.NaN;
  private last = Number.NEGATIVE_INFINITY;
  private days = 0;
  private skipped = 0;
  private readonly warnings: Problem[] = [];

  constructor(file: string) {
    this.file = file;
  }

  /** Rows read so far, for a progress line. */
  get rows(): number {
    return this.count;
  }

  push(chunk: string): void {
    if (this.failed) return;
    const text = this.rest + chunk;
    let from = 0;
    for (let to = text.indexOf('\n'); to >= 0; to = text.indexOf('\n', from)) {
      this.row(text, from, to > from && text.charCodeAt(to - 1) === 13 ? to - 1 : to);
      from = to + 1;
    }
    this.rest = text.slice(from);
  }

  end(): LogRead {
    if (this.rest !== '') this.row(this.rest, 0, this.rest.length);
    this.rest = '';
    if (this.failed) return { ok: false, problems: this.failed };
    const { file, count, skipped } = this;
    if (count === 0)
      return failed(file, 1, 'log-empty', `${file} holds no row of time and current`, [
        ...this.warnings.map((w) => w.what),
        'time [s];current [mA]',
      ]);
    if (skipped > mostSkipped * (count + skipped))
      return failed(
        file,
        1,
        'log-not-read',
        `${skipped} of ${count + skipped} rows of ${file} cannot be read`,
        this.warnings.map((w) => `line ${w.line}: ${w.what}`),
      );
    if (skipped > namedRows)
      this.warnings.push(
        problem(file, 1, 'log-row', 'warning', `${skipped - namedRows} more rows were left out`, [
          'look at the file around the lines named',
        ]),
      );
    const amperes = this.amperes.slice(0, count);
    const turned = isTurned(amperes);
    if (turned) for (let k = 0; k < count; k++) amperes[k] = -amperes[k]!;
    return { ok: true, value: { seconds: this.seconds.slice(0, count), amperes, warnings: this.warnings, skipped, turned } };
  }

  private row(text: string, from: number, to: number): void {
    this.line++;
    if (to <= from || text.charCodeAt(from) === 35 || this.failed) return;
    if (!this.columns) this.header(text.slice(from, to).replace(/^\uFEFF/, ''));
    else {
      const why = this.take(text, from, to, this.columns);
      if (why !== undefined) this.leave(why);
    }
  }

  private header(line: string): void {
    if (line.trim() === '') return;
    const read = looksLikeData(line) ? noHeader : columnsOf(line);
    if (read.ok) this.columns = read.value;
    else this.failed = [problem(this.file, this.line, 'log-header', 'error', read.what, read.mend)];
  }

  /** Takes a row in, or says why not. */
  private take(text: string, from: number, to: number, columns: Columns): string | undefined {
    const { time, current, separator, secondsPerUnit, amperesPerUnit, clock } = columns;
    let at = from;
    let [timeText, currentText] = ['', ''];
    for (let column = 0; column <= Math.max(time, current); column++) {
      if (at > to) return 'a column is missing';
      let end = text.indexOf(separator, at);
      if (end < 0 || end > to) end = to;
      if (column === time) timeText = text.slice(at, end);
      if (column === current) currentText = text.slice(at, end);
      at = end + 1;
    }
    const ampere = plainNumber(currentText) * amperesPerUnit;
    const second = clock === 'never' ? plainNumber(timeText) * secondsPerUnit : this.clock(timeText);
    if (!Number.isFinite(ampere)) return currentText.trim() === '' ? 'the current is missing' : `\`${shown(currentText)}\` is no current`;
    if (!Number.isFinite(second)) return `\`${shown(timeText)}\` is no time`;
    if (second < this.last) return 'its time is before that of the row above';
    this.last = second;
    if (this.count === 0) this.first = second;
    if (this.count === this.seconds.length) this.grow();
    this.seconds[this.count] = second - this.first;
    this.amperes[this.count] = ampere;
    this.count++;
    return undefined;
  }

  /** A time of day goes on past midnight. */
  private clock(text: string): number {
    const read = clockSeconds(text);
    if (read === undefined) return Number.NaN;
    if (read.dated) return read.seconds;
    if (read.seconds + this.days < this.last - day_s / 2) this.days += day_s;
    return read.seconds + this.days;
  }

  private leave(why: string): void {
    this.skipped++;
    if (this.skipped <= namedRows)
      this.warnings.push(
        problem(this.file, this.line, 'log-row', 'warning', `line ${this.line} was left out: ${why}`, [
          'mend the row, or leave it out of the log',
        ]),
      );
  }

  private grow(): void {
    const [seconds, amperes] = [new Float64Array(2 * this.count), new Float64Array(2 * this.count)];
    seconds.set(this.seconds);
    amperes.set(this.amperes);
    [this.seconds, this.amperes] = [seconds, amperes];
  }
}

const shown = (text: string): string => (text.length > 20 ? `${text.slice(0, 20)}…` : text.trim());

/** Most rows negative: the arrow of the clamp pointed the other way. */
function isTurned(amperes: Float64Array): boolean {
  let negative = 0;
  for (const a of amperes) if (a < 0) negative++;
  return negative > amperes.length / 2;
}

function problem(file: string, line: number, code: string, severity: Problem['severity'], what: string, mend: readonly string[]): Problem {
  const why = severity === 'error' ? 'without times and amperes there are no steps to find' : 'a row that cannot be read tells nothing';
  return { code, severity, file, line, column: 1, length: 1, what, why, mend };
}

const failed = (file: string, line: number, code: string, what: string, mend: readonly string[]): LogRead => ({
  ok: false,
  problems: [problem(file, line, code, 'error', what, mend)],
});
