import type { Testability } from '../diagnose/testable.ts';
import type { Reason } from '../diagnose/together.ts';
import { visible } from './problemText.ts';
import { textTable, wrapped } from './textTable.ts';

/** Groups of each reason that are printed, and members of each that are named, unless all are asked for. */
const mostGroups = 5;
const mostNamed = 6;

/** Why faults stay together, and what parts them all the same. */
const reasons: Readonly<Record<Reason, string>> = {
  'one-part': 'One part: the repair is the same whichever it is',
  blown: 'The fuse has opened, by itself or for a short behind it: a lamp in its place shows whether the short is still there',
  'one-run': 'One run of wiring, with next to nothing between them: look along it, or part a plug on it',
  'out-of-reach': 'Parted only at places out of reach',
  'same-effect': 'The same volts and amperes in every scene, in different places: part a plug, exchange, or measure off the vehicle',
  'too-small': 'Off the healthy vehicle by less than the instruments tell: small leaks, spare pins, a short where that potential belongs',
  'no-change':
    'Not one reading is off the healthy vehicle: such a fault shows with other switches set, over time, in heat, or not before something else fails',
};

/** What can be told apart, as text. @param all every group and fault, not only the first ones */
export function testableText(title: string, within_min: number, found: Testability, columns: number, all = false): string {
  const line = (text: string) => wrapped(visible(text), columns).join('\n');
  const share = (n: number) => `${Math.round((100 * n) / Math.max(1, found.faults))} %`;
  const blocks = [
    line(`${title}: ${found.faults} steady single faults`),
    textTable(
      {
        head: ['By', 'told apart into', 'alone in theirs', ''],
        rows: [
          ['looking in every key position', String(found.byEye.classes), String(found.byEye.alone), share(found.byEye.alone)],
          [
            `and meter and clamp within ${within_min} min`,
            String(found.byMeter.classes),
            String(found.byMeter.alone),
            share(found.byMeter.alone),
          ],
        ],
        right: [1, 2, 3],
      },
      columns,
    ),
  ];
  const groups = all ? Number.POSITIVE_INFINITY : mostGroups;
  const names = all ? Number.POSITIVE_INFINITY : mostNamed;
  const together = found.together.reduce((sum, t) => sum + t.faults.length, 0);
  if (together > 0) blocks.push(line(`The other ${together} stay together, each for a reason:`));
  for (const [reason, text] of Object.entries(reasons)) {
    const held = found.together.filter((t) => t.reason === reason).map((t) => t.faults);
    const many = held.reduce((sum, h) => sum + h.length, 0);
    if (many > 0) blocks.push([line(`${text} (${many}):`), ...groupLines(held, columns, groups, names)].join('\n'));
  }
  if (found.added.length > 0)
    blocks.push(
      [
        line('Test points worth bringing out, best first (each chosen for what it adds to those before):'),
        ...found.added.map((a) => line(`  ${a.terminal}, ${a.minutes} min to reach: ${a.classes} classes`)),
      ].join('\n'),
    );
  return blocks.join('\n\n');
}

function groupLines(groups: readonly (readonly string[])[], columns: number, most: number, names: number): readonly string[] {
  const shown = groups.slice(0, most).map((g) => {
    const more = g.length > names ? ` and ${g.length - names} more` : '';
    return wrapped(visible(`${g.slice(0, names).join(', ')}${more}`), columns - 2)
      .map((l, k) => (k === 0 ? `- ${l}` : `  ${l}`))
      .join('\n');
  });
  return groups.length > most ? [...shown, `and ${groups.length - most} more groups`] : shown;
}
