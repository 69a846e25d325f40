import type { Testability } from '../diagnose/testable.ts';
import { visible } from './problemText.ts';
import { textTable, wrapped } from './textTable.ts';

/** Groups that are printed, and members of each that are named. */
const mostGroups = 12;
const mostNamed = 6;

/** What can be told apart, as text. */
export function testableText(title: string, within_min: number, found: Testability, columns: number): string {
  const line = (text: string) => wrapped(visible(text), columns).join('\n');
  const share = (n: number) => `${Math.round((100 * n) / Math.max(1, found.faults))} %`;
  const blocks = [
    line(`${title}: ${found.faults} steady single faults`),
    textTable(
      {
        head: ['By', 'told apart into', 'alone in theirs', ''],
        rows: [
          ['looking in every key position', String(found.byEye.classes), String(found.byEye.alone), share(found.byEye.alone)],
          [`and volts within ${within_min} min`, String(found.byMeter.classes), String(found.byMeter.alone), share(found.byMeter.alone)],
        ],
        right: [1, 2, 3],
      },
      columns,
    ),
  ];
  if (found.groups.length > 0)
    blocks.push([line('No reading within reach tells these apart:'), ...groupLines(found.groups, columns)].join('\n'));
  if (found.added.length > 0)
    blocks.push(
      [
        line('Test points worth bringing out, best first (each chosen for what it adds to those before):'),
        ...found.added.map((a) => line(`  ${a.terminal}, ${a.minutes} min to reach: ${a.classes} classes`)),
      ].join('\n'),
    );
  if (found.added.length > 0 && found.never.length > 0)
    blocks.push([line('Never told apart by volts, even there:'), ...groupLines(found.never, columns)].join('\n'));
  return blocks.join('\n\n');
}

function groupLines(groups: readonly (readonly string[])[], columns: number): readonly string[] {
  const shown = groups.slice(0, mostGroups).map((g) => {
    const more = g.length > mostNamed ? ` and ${g.length - mostNamed} more` : '';
    return wrapped(visible(`${g.slice(0, mostNamed).join(', ')}${more}`), columns - 2)
      .map((l, k) => (k === 0 ? `- ${l}` : `  ${l}`))
      .join('\n');
  });
  return groups.length > mostGroups ? [...shown, `and ${groups.length - mostGroups} more groups`] : shown;
}
