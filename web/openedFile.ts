import type { CircuitChoice } from './session/session.ts';

/**
 * The circuit that the terminal serves beside the page: `?open=opened.yaml&name=light-van.yaml`. Nothing else is ever
 * fetched by an address that a link brings.
 */
export async function openedFile(search: string): Promise<CircuitChoice | undefined> {
  const words = new URLSearchParams(search);
  if (words.get('open') !== 'opened.yaml') return undefined;
  const name = words.get('name') ?? '';
  const answer = await fetch('opened.yaml', { cache: 'no-store' }).catch(() => undefined);
  if (!answer?.ok) return undefined;
  return { from: 'file', name: name === '' ? 'opened.yaml' : name, text: await answer.text() };
}
