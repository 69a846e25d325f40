import type { Circuit } from '../circuit/circuit.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import type { KeyModel } from '../circuit/part.ts';
import type { KeyPlace, Scene } from '../circuit/scene.ts';

/**
 * What a drawing shows, as one sentence: "Key at ON, engine still; radio on, blower at 2." It stands above the
 * drawing and is its accessible name.
 */
export function sceneLine(circuit: Circuit, scene: Scene): string {
  const key = keySwitchOf(circuit);
  const first = [
    ...(key && scene.key ? [keyWords(key.model, scene.key)] : []),
    ...(circuit.engine ? [engineWords[scene.engine]] : []),
  ].join(', ');
  const hand = [
    ...Object.entries(scene.hand).flatMap(([id, setting]) => {
      const part = circuit.parts.get(id);
      return part && part.kind.settings?.(part)[0] !== setting ? [`${inSentence(part.name ?? id)} ${settingWords(setting)}`] : [];
    }),
    ...scene.apart.map((id) => `${id} out of circuit`),
    ...scene.bridged.map(([a, b]) => `${a} bridged to ${b}`),
    ...scene.swapped.map((id) => `${id} exchanged`),
  ].join(', ');
  const whole = [first, hand].filter((s) => s !== '').join('; ');
  return whole === '' ? 'As it stands, nothing switched.' : `${whole[0]!.toUpperCase()}${whole.slice(1)}.`;
}

/** `Key at ON`, `Key held at START`, `Key held between ON and START, 77°`, `Key back at ON`, `Key out`. */
export function keyWords(model: KeyModel, key: KeyPlace): string {
  if (!key.in) return 'Key out';
  const here = model.positions.find((p) => Math.abs(p.angle - key.angle) < 0.5);
  if (here)
    return here.springsTo !== undefined
      ? `Key held at ${here.name}`
      : key.came === 'back'
        ? `Key back at ${here.name}`
        : `Key at ${here.name}`;
  const ordered = [...model.positions].sort((a, b) => a.angle - b.angle);
  const above = ordered.find((p) => p.angle > key.angle);
  const below = ordered.filter((p) => p.angle < key.angle).at(-1);
  const degrees = `${Math.round(key.angle * 10) / 10}°`;
  if (!above || !below) return `Key ${above ? 'before' : 'past'} ${(above ?? below)?.name ?? 'its detents'}, ${degrees}`;
  return `Key held between ${below.name} and ${above.name}, ${degrees}`;
}

const engineWords = { stopped: 'engine still', cranking: 'engine cranking', running: 'engine running' } as const;
const settingWords = (setting: string) => (/^\d/.test(setting) ? `at ${setting}` : setting);
/** A name in the middle of a sentence: small first letter unless it is a code or all capitals. */
const inSentence = (name: string) => (/^[A-Z][a-z]/.test(name) ? name[0]!.toLowerCase() + name.slice(1) : name);
