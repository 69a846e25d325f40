import type { HandAction } from '../circuit/handPhrase.ts';
import type { Scene } from '../circuit/scene.ts';

/** The scene after something was done by hand. */
export function handed(scene: Scene, action: HandAction): Scene {
  switch (action.does) {
    case 'set':
      return { ...scene, hand: { ...scene.hand, ...Object.fromEntries(action.settings.map((s) => [s.part, s.setting])) } };
    case 'engine':
      return { ...scene, engine: action.engine };
    case 'apart':
      return { ...scene, apart: [...scene.apart.filter((p) => p !== action.part), action.part] };
    case 'bridge':
      return { ...scene, bridged: [...scene.bridged, action.ends] };
    case 'swap':
      return { ...scene, swapped: [...scene.swapped, action.part] };
  }
}

/** The scene after it was undone: plugged in again, put back, bridge taken off. What is set has no undoing. */
export function undone(scene: Scene, action: HandAction): Scene {
  switch (action.does) {
    case 'apart':
      return { ...scene, apart: scene.apart.filter((p) => p !== action.part) };
    case 'bridge':
      return { ...scene, bridged: scene.bridged.filter(([a, b]) => ![a, b].every((t) => action.ends.includes(t))) };
    case 'swap':
      return { ...scene, swapped: scene.swapped.filter((p) => p !== action.part) };
    default:
      return handed(scene, action);
  }
}
