import { yamlFlow, yamlText } from '../edit/written.ts';
import { kindsFitting } from '../guess/kindsFitting.ts';
import type { PartKind } from '../part.ts';
import type { Problem } from '../problem.ts';
import type { Cell, Row } from './csv.ts';

/** Parts that wires name and no table describes: the terminals used, what people wrote for it, and whether it was named without a terminal. */
export type UsedTerminals = Map<string, { readonly terminals: Set<string>; readonly name: string | undefined; readonly bare?: boolean }>;

type Tell = (at: Cell | Row, problem: Omit<Problem, 'file' | 'line' | 'column' | 'length'>) => void;
const top: Cell = { text: '', line: 1, column: 1, length: 1 };

/**
 * Lines of a circuit file for parts of which the list only names terminals: a point where wires meet is a splice or a
 * ground point; anything else is a box whose inside is not known, with the kinds that would fit.
 */
export function boxesFor(
  used: UsedTerminals,
  known: ReadonlyMap<string, string>,
  kinds: readonly PartKind[],
  tell: Tell,
): readonly string[] {
  return [...used].flatMap(([id, { terminals, name, bare }]) => {
    if (known.has(id)) return [];
    const pins = [...terminals];
    const isPoint = pins.length === 0;
    const fit = kindsFitting(id, pins, kinds);
    const held = isPoint
      ? { kind: /^(XE|GND|MP)\d*/i.test(id) ? 'ground-point' : 'splice', ...(name !== undefined && { name }) }
      : {
          kind: 'unknown-load',
          ...(name !== undefined && { name }),
          terminals: pins.length > 1 ? pins : [...pins, pins[0] === '31' ? '30' : '31'],
          current: '0 A',
          load: 'no',
          note: 'only its terminals are known, from the wire list',
        };
    tell(top, {
      code: isPoint ? 'part-is-point' : 'part-is-box',
      severity: 'warning',
      what: isPoint
        ? `no table describes \`${id}\`; wires meet there, so it is a ${held.kind}`
        : `no table describes \`${id}\`; it is a box with the terminals ${pins.map((p) => `\`${p}\``).join(', ')}`,
      why: isPoint
        ? 'another part there would stay unseen'
        : 'nothing is known of what it does, so what hangs on it is dead in every key position',
      mend:
        fit.length > 0
          ? [`kinds that have such terminals: ${fit.map((k) => `\`${k}\``).join(', ')}`]
          : [`write its kind in place of \`${held.kind}\`; \`detent parts\` lists every kind`],
    });
    if (bare && pins.length > 0)
      tell(top, {
        code: 'terminal-missing',
        severity: 'warning',
        what: `a wire of the list leads to \`${id}\` without saying at which terminal`,
        why: 'the circuit cannot be computed until it says so',
        mend: [`write one of ${pins.map((p) => `\`${id}.${p}\``).join(', ')}`],
      });
    return [`  ${yamlText(id)}: ${yamlFlow(held)}`];
  });
}
