import type { Message } from './session/update.ts';

/** Tells the desk what happened; every view speaks this way and never changes what it was given. */
export function say(from: EventTarget, message: Message): void {
  from.dispatchEvent(new CustomEvent<Message>('say', { detail: message, bubbles: true, composed: true }));
}

/** Something other than a message about the session: open a dialog, undo. */
export type Wish =
  | 'library'
  | 'jobs'
  | 'help'
  | 'undo'
  | 'redo'
  | 'print'
  | 'theme'
  | 'save-circuit'
  | 'save-job'
  | 'open-file'
  | 'copy-link';
export function wish(from: EventTarget, name: Wish): void {
  from.dispatchEvent(new CustomEvent<Wish>('wish', { detail: name, bubbles: true, composed: true }));
}
