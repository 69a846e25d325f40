import type { Engine } from './circuit.ts';
import { nodeAt } from './issueProblem.ts';
import { type Placed, spanAt, type Tell } from './placed.ts';
import type { EngineWritten } from './shape.ts';
import { type Board, ticked } from './wires.ts';

/** The parts that make the engine crank and run; each id that no part has is told. */
export function readEngine(written: EngineWritten, root: Placed, { parts, isFaulty, nearParts }: Board, tell: Tell): Engine {
  const look = (id: string, path: readonly PropertyKey[], role: string) => {
    if (parts.has(id) || isFaulty(id)) return id;
    const near = nearParts(id);
    tell(spanAt(root, ['engine', ...path]), {
      code: 'unknown-part',
      what: `${role} of the engine is \`${id}\`, and no part has that id`,
      why: 'whether the engine cranks and runs cannot be told',
      mend: near.length > 0 ? [`parts with a near name: ${ticked(near)}`] : ['name the id of a part of this file'],
    });
    return id;
  };
  const each = (key: 'spark' | 'fuel' | 'stops' | 'drives') => {
    const isList = nodeAt(root, ['engine', key])?.is === 'list';
    return (written[key] ?? []).map((id, k) => look(id, isList ? [key, k] : [key], key));
  };
  return {
    crank: look(written.crank, ['crank'], 'crank'),
    spark: each('spark'),
    fuel: each('fuel'),
    ...(written.stops === undefined ? {} : { stops: each('stops') }),
    drives: each('drives'),
  };
}
