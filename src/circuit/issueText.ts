import type { Problem } from './problem.ts';

/** Fields of a problem travel through a schema's issue as one text, since an issue has room for no more. */
export type Said = Pick<Problem, 'code' | 'what' | 'mend'>;
const part = '\u001f';

/** Message of an issue that knows its code, its fact and its mends. A kind may use it in `v.check(…, issueText(…))`; a plain sentence works as well. */
export function issueText(code: string, what: string, mend: readonly string[] = []): string {
  return [code, what, ...mend].join(part);
}

/** The fields again; a plain sentence becomes the fact with the code `wrong-form`. */
export function saidIn(message: string): Said {
  const [code = '', what, ...mend] = message.split(part);
  return what === undefined ? { code: 'wrong-form', what: message, mend: [] } : { code, what, mend };
}
