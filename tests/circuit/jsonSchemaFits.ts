type Schema = { readonly [key: string]: unknown };

/**
 * Whether data fits a JSON Schema, for the words that ours uses: type, enum, const, properties, required,
 * additionalProperties, propertyNames, items, minItems, pattern, minimum, maximum, anyOf, allOf, if/then, $ref. An unknown word throws, so that
 * the check cannot pass by not looking.
 */
export function misfits(schema: Schema, data: unknown, root: Schema = schema, at = ''): readonly string[] {
  const found: string[] = [];
  const inner = (s: unknown, d: unknown, where = at) => misfits(s as Schema, d, root, where);
  const isMap = typeof data === 'object' && data !== null && !Array.isArray(data);
  const map = isMap ? (data as Schema) : {};
  for (const [word, rule] of Object.entries(schema)) {
    switch (word) {
      case '$schema':
      case '$defs':
      case 'title':
      case 'description':
      case 'examples':
      case 'default':
      case 'then':
        break;
      case '$ref':
        found.push(...inner((root['$defs'] as Schema)[String(rule).replace('#/$defs/', '')], data));
        break;
      case 'type':
        if (![rule].flat().some((t) => typeOf(data).includes(String(t)))) found.push(`${at}: not ${String(rule)}`);
        break;
      case 'enum':
        if (!(rule as unknown[]).includes(data)) found.push(`${at}: none of ${String(rule)}`);
        break;
      case 'const':
        if (rule !== data) found.push(`${at}: not ${String(rule)}`);
        break;
      case 'required':
        for (const key of rule as string[]) if (isMap && !Object.hasOwn(map, key)) found.push(`${at}: ${key} is missing`);
        break;
      case 'properties':
        for (const [key, s] of Object.entries(rule as Schema))
          if (Object.hasOwn(map, key)) found.push(...inner(s, map[key], `${at}/${key}`));
        break;
      case 'additionalProperties': {
        const known = Object.keys((schema['properties'] as Schema | undefined) ?? {});
        for (const key of Object.keys(map)) {
          if (known.includes(key)) continue;
          if (rule === false) found.push(`${at}: ${key} is no key`);
          else found.push(...inner(rule, map[key], `${at}/${key}`));
        }
        break;
      }
      case 'propertyNames':
        for (const key of Object.keys(map)) found.push(...inner(rule, key, `${at}/${key}`));
        break;
      case 'items':
        if (Array.isArray(data)) for (const [k, item] of data.entries()) found.push(...inner(rule, item, `${at}/${k}`));
        break;
      case 'minItems':
        if (Array.isArray(data) && data.length < Number(rule)) found.push(`${at}: too short`);
        break;
      case 'pattern':
        if (typeof data === 'string' && !new RegExp(String(rule), 'u').test(data)) found.push(`${at}: not like ${String(rule)}`);
        break;
      case 'minimum':
        if (typeof data === 'number' && data < Number(rule)) found.push(`${at}: too small`);
        break;
      case 'maximum':
        if (typeof data === 'number' && data > Number(rule)) found.push(`${at}: too large`);
        break;
      case 'anyOf':
        if ((rule as Schema[]).every((s) => inner(s, data).length > 0)) found.push(`${at}: fits none of several`);
        break;
      case 'allOf':
        for (const s of rule as Schema[]) found.push(...inner(s, data));
        break;
      case 'if':
        if (inner(rule, data).length === 0) found.push(...inner(schema['then'], data));
        break;
      default:
        throw new Error(`the check does not know ${word}`);
    }
  }
  return found;
}

function typeOf(data: unknown): readonly string[] {
  if (data === null) return ['null'];
  if (Array.isArray(data)) return ['array'];
  if (typeof data === 'number') return Number.isInteger(data) ? ['integer', 'number'] : ['number'];
  return [typeof data];
}
