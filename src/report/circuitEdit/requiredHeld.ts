import type { Writable } from '../../circuit/edit/written.ts';
import type { Parameter } from '../../circuit/parameter.ts';
import type { PartKind } from '../../circuit/part.ts';
import { units } from '../../circuit/units.ts';

/** A part of a kind as it is first put down: its kind, and an example for each parameter that must be given. */
export function requiredHeld(kind: string, kinds: readonly PartKind[]): { readonly [key: string]: Writable } {
  const parameters = kinds.find((k) => k.kind === kind)?.parameters ?? {};
  const needed = Object.entries(parameters).flatMap(([name, p]) =>
    'required' in p && p.required === true ? [[name, exampleOf(p)] as const] : [],
  );
  return { kind, ...Object.fromEntries(needed) };
}

/** One way to write a parameter, to be replaced by what the part says. */
export function exampleOf(parameter: Parameter): Writable {
  switch (parameter.as) {
    case 'quantity':
      return units[parameter.dimension].example;
    case 'count':
      return String(Math.max(parameter.min ?? 1, Math.min(parameter.max ?? 4, 4)));
    case 'word':
      return parameter.words[0] ?? '';
    case 'flag':
      return parameter.default ? 'no' : 'yes';
    case 'text':
      return 'text';
    case 'form':
      return flowRead(parameter.written);
  }
}

/** What a person typed into a field: a list or a map in brackets is one, anything else is text. */
export function typedHeld(text: string): Writable {
  const typed = text.trim();
  return /^[{[]/.test(typed) ? flowRead(typed) : typed;
}

/** The written example of a form, `{ ON: { at: 60° } }`, taken apart: brackets, colons and commas only. */
function flowRead(written: string): Writable {
  let at = 0;
  const skip = () => {
    while (/[\s,]/.test(written[at] ?? '')) at++;
  };
  const word = (ends: RegExp): string => {
    const from = at;
    while (at < written.length && !ends.test(written[at]!)) at++;
    return written.slice(from, at).trim();
  };
  const value = (): Writable => {
    skip();
    if (written[at] === '{') {
      at++;
      const map: Record<string, Writable> = {};
      for (skip(); at < written.length && written[at] !== '}'; skip()) {
        const key = word(/[:}]/).replace(/^"(.*)"$/, '$1');
        if (written[at] === ':') at++;
        map[key] = value();
      }
      at++;
      return map;
    }
    if (written[at] === '[') {
      at++;
      const list: Writable[] = [];
      for (skip(); at < written.length && written[at] !== ']'; skip()) list.push(value());
      at++;
      return list;
    }
    return word(/[,\]}]/).replace(/^"(.*)"$/, '$1');
  };
  return value();
}
