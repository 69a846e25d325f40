/** What keeps a text from being a well-formed XML document of the simple kind: tags that do not pair, attributes without quotes or twice, bare signs. */
export function unsoundXml(text: string): readonly string[] {
  const wrong: string[] = [];
  const open: string[] = [];
  const ids = new Set<string>();
  let at = 0;
  for (const tag of text.matchAll(/<(\/?)([A-Za-z][\w:-]*)((?:\s+[\w:-]+="[^"<]*")*)\s*(\/?)>/g)) {
    const between = text.slice(at, tag.index);
    if (/<|&(?!(amp|lt|gt|quot|#39);)/.test(between)) wrong.push(`bare sign in: ${between.slice(0, 60)}`);
    at = tag.index + tag[0].length;
    const [, closing, name, attributes, alone] = tag;
    if (closing) {
      if (open.pop() !== name) wrong.push(`</${name}> closes something else`);
      continue;
    }
    if (!alone) open.push(name!);
    const names = [...attributes!.matchAll(/([\w:-]+)="([^"]*)"/g)];
    if (new Set(names.map((n) => n[1])).size !== names.length) wrong.push(`<${name}> has an attribute twice`);
    for (const [, key, of] of names) {
      if (/&(?!(amp|lt|gt|quot|#39);)/.test(of!)) wrong.push(`bare & in ${key} of <${name}>`);
      if (key === 'id' && ids.has(of!)) wrong.push(`id ${of} twice`);
      if (key === 'id') ids.add(of!);
    }
  }
  if (/[<&]/.test(text.slice(at))) wrong.push('something behind the last tag');
  if (open.length > 0) wrong.push(`not closed: ${open.join(', ')}`);
  return wrong;
}
