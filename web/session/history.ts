import type { Session } from './session.ts';
import { type Message, update } from './update.ts';

/** A session with all that came before it and all that was undone. Without limit: steps share what they have in common. */
export type History = {
  readonly past: readonly Session[];
  readonly now: Session;
  readonly future: readonly Session[];
  /** The drag or the field that the last step belongs to; the next step of the same joins it. */
  readonly gesture?: string | undefined;
};

export const begin = (now: Session): History => ({ past: [], now, future: [] });

/** Looking is no step; neither is what follows by itself. */
const quiet: ReadonlySet<Message['do']> = new Set(['view', 'settle', 'engine', 'instant', 'look', 'meter']);

export function step(history: History, message: Message): History {
  const now = update(history.now, message);
  if (now === history.now) return history;
  if (quiet.has(message.do)) return { ...history, now };
  const gesture = 'gesture' in message ? message.gesture : undefined;
  const joins = gesture !== undefined && gesture === history.gesture;
  return { past: joins ? history.past : [...history.past, history.now], now, future: [], gesture };
}

export function undo(history: History): History {
  const before = history.past.at(-1);
  if (before === undefined) return history;
  return { past: history.past.slice(0, -1), now: before, future: [history.now, ...history.future] };
}

export function redo(history: History): History {
  const [after, ...future] = history.future;
  if (after === undefined) return history;
  return { past: [...history.past, history.now], now: after, future };
}
