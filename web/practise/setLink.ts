import { linkLimit, packed, unpacked } from '../circuit/share.ts';
import type { Message } from '../session/update.ts';
import { setName } from './keptPractice.ts';

/** The address that opens a set on a circuit of the library; undefined when it would be too long to travel. Answers in it are sealed as in the file. */
export async function setLink(circuit: string, set: string): Promise<string | undefined> {
  const words = new URLSearchParams({ circuit, view: 'practise', exercises: await packed(set) });
  return words.toString().length > linkLimit ? undefined : `${location.origin}${location.pathname}#${words}`;
}

/** The set that a link carries, to be kept with the job. Not looked into: it is read like any file. */
export async function keptExercises(hash: string): Promise<Message | undefined> {
  const held = new URLSearchParams(hash.replace(/^#/, '')).get('exercises');
  const file = held === null ? undefined : await unpacked(held);
  return file === undefined ? undefined : { do: 'more', name: setName, value: { file } };
}
