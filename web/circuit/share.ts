/** Longest link that is made, characters. Browsers take more; mail and chat programs cut long ones (estimate). */
export const linkLimit = 30_000;
/** Largest text taken out of a link, bytes: that of a circuit file. */
const textLimit_bytes = 1024 * 1024;

/** A circuit's text, deflated and written in letters that a link may hold. */
export async function packed(text: string): Promise<string> {
  const stream = new Blob([text]).stream().pipeThrough(new CompressionStream('deflate-raw'));
  const bytes = new Uint8Array(await new Response(stream).arrayBuffer());
  let letters = '';
  for (let k = 0; k < bytes.length; k += 4096) letters += String.fromCharCode(...bytes.subarray(k, k + 4096));
  return btoa(letters).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');
}

/** Undefined when it is no packed text, or unfolds to more than 1 MiB. */
export async function unpacked(packedText: string): Promise<string | undefined> {
  if (packedText.length > 4 * linkLimit) return undefined;
  try {
    const letters = atob(packedText.replaceAll('-', '+').replaceAll('_', '/'));
    const bytes = Uint8Array.from(letters, (c) => c.charCodeAt(0));
    const reader = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw')).getReader();
    const pieces: Uint8Array[] = [];
    let size = 0;
    for (;;) {
      const { done, value } = await reader.read();
      if (done) break;
      size += value.length;
      if (size > textLimit_bytes) {
        await reader.cancel();
        return undefined;
      }
      pieces.push(value);
    }
    const whole = new Uint8Array(size);
    let at = 0;
    for (const piece of pieces) {
      whole.set(piece, at);
      at += piece.length;
    }
    return new TextDecoder('utf-8', { fatal: true }).decode(whole);
  } catch {
    return undefined;
  }
}

/** `own=…&name=…` behind the # of a link; undefined when it would be too long to travel. */
export async function ownLink(name: string, text: string): Promise<string | undefined> {
  const words = new URLSearchParams({ own: await packed(text), name, view: 'circuit' });
  const hash = words.toString();
  return hash.length > linkLimit ? undefined : hash;
}

/** The circuit that a link carries. */
export async function ownCircuit(
  hash: string,
): Promise<{ readonly from: 'file'; readonly name: string; readonly text: string } | undefined> {
  const words = new URLSearchParams(hash.replace(/^#/, ''));
  const own = words.get('own');
  const text = own === null ? undefined : await unpacked(own);
  return text === undefined ? undefined : { from: 'file', name: words.get('name')?.slice(0, 80) || 'circuit.yaml', text };
}
