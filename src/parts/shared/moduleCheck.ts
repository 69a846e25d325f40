import { nearNames } from '../../circuit/nearNames.ts';
import type { Flaw } from '../../circuit/part.ts';
import { pinsNamed } from '../moduleCondition.ts';
import { type ModuleHeld, pinNames } from './moduleState.ts';

/** What is wrong between pins, outputs and conditions of a module, each fine by itself. */
export function checkModule(held: ModuleHeld): readonly Flaw[] {
  const known = [...pinNames(held), '31'];
  const unknown = (at: readonly string[], pin: string): readonly Flaw[] => {
    if (known.includes(pin)) return [];
    const near = nearNames(pin, known).map((name) => `a pin with a near name: \`${name}\``);
    return [{ at, what: `no pin of the module is named \`${pin}\``, mend: [...near, `or add \`${pin}\` to \`pins\``] }];
  };
  const conditions = [
    ...Object.entries(held.outputs).map(([name, o]) => ({ at: ['outputs', name, 'when'], condition: o.when })),
    ...(held['awake-when'] ? [{ at: ['awake-when'], condition: held['awake-when'] }] : []),
  ];
  return [
    ...Object.entries(held.outputs).flatMap(([name, o]) => unknown(['outputs', name, 'to'], o.to)),
    ...Object.entries(held.outputs).flatMap(([name, o]): readonly Flaw[] =>
      o.to === name ? [{ at: ['outputs', name, 'to'], what: `output \`${name}\` closes to itself`, mend: ['name 31 or another pin'] }] : [],
    ),
    ...conditions.flatMap(({ at, condition }) =>
      pinsNamed(condition).flatMap(({ pin, asks }) => [
        ...unknown(at, pin),
        ...(asks === 'grounded' && known.includes(pin) && held.pins[pin]?.is !== 'pull-up'
          ? [
              {
                at,
                what: `\`${pin}\` is asked whether it is grounded, but nothing pulls it up: it reads no volts, grounded or open`,
                mend: [`write \`${pin}: pull-up\` under \`pins\``],
              },
            ]
          : []),
      ]),
    ),
  ];
}
