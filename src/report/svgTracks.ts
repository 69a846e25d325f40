import type { Layout } from './layout/layout.ts';
import { element, escaped } from './svgText.ts';
import { textWidth } from './textWidth.ts';

/** Number and name under each load's track, the name in at most three lines. */
export function svgTracks(layout: Layout, names: ReadonlyMap<string, string>): readonly string[] {
  const y = layout.height + 14;
  return layout.tracks.flatMap((t, k) => {
    const before = layout.tracks[k - 1];
    // Two loads in one column: the second name would lie on the first.
    const isTwin = before !== undefined && t.x - before.x < layout.pitch / 2;
    const lines = wrapped(names.get(t.load) ?? t.load, layout.pitch - 6);
    const own = [element('text', { x: t.x, y, 'font-size': 13, 'font-weight': 500, 'text-anchor': 'middle' }, String(t.number))];
    if (isTwin) return [];
    for (const [j, line] of lines.entries())
      own.push(
        element(
          'text',
          { class: 'strong', x: t.x, y: y + 16 + 15 * j, 'font-size': 14, 'font-weight': 600, 'text-anchor': 'middle' },
          escaped(line),
        ),
      );
    return own;
  });
}

/** Lines of at most `room` px; a word that is too long alone goes on in the next line. */
function wrapped(text: string, room: number): readonly string[] {
  const lines: string[] = [];
  const fits = (line: string) => textWidth(line, 14, 600) <= room;
  for (const word of text.split(' ')) {
    let rest = word;
    while (!fits(rest)) {
      const at = breakIn(rest, (head) => fits(`${head}-`));
      lines.push(`${rest.slice(0, at)}-`);
      rest = rest.slice(at);
    }
    const longer = `${lines.at(-1)} ${rest}`;
    if (rest === word && lines.length > 0 && fits(longer)) lines[lines.length - 1] = longer;
    else lines.push(rest);
  }
  return lines.slice(0, 3).map((line, k) => cut(k === 2 && lines.length > 3 ? `${line} ${lines[3]}` : line, room));
}

/** Where to break a long word: as late as fits, before a consonant that a vowel follows (`alter-nator`), else anywhere. */
function breakIn(word: string, fits: (head: string) => boolean): number {
  const vowel = /[aeiouyäöü]/i;
  let any = 1;
  let good = 0;
  for (let at = 2; at <= word.length - 3; at++) {
    if (!fits(word.slice(0, at))) break;
    any = at;
    if (!vowel.test(word[at]!) && vowel.test(word[at + 1]!) && word.length - at > 3) good = at;
  }
  return good > 3 ? good : any;
}

function cut(line: string, room: number): string {
  let text = line;
  while (text.length > 1 && textWidth(text === line ? text : `${text}.`, 14, 600) > room) text = text.slice(0, -1).trimEnd();
  return text === line ? line : `${text}.`;
}
