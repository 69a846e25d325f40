/** The circuit that stands in the page itself, put there by `detent export FILE --html`. */
export function insideCircuit(): { readonly from: 'file'; readonly name: string; readonly text: string } | undefined {
  const held = document.getElementById('circuit-inside')?.textContent;
  if (!held) return undefined;
  try {
    const { name, text } = JSON.parse(held) as { name?: unknown; text?: unknown };
    return typeof name === 'string' && typeof text === 'string' ? { from: 'file', name, text } : undefined;
  } catch {
    return undefined;
  }
}
