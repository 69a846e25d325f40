import type { Span, Tell } from './placed.ts';

const idForm = /^[\p{L}\p{N}][\p{L}\p{N}_/'-]*$/u;
/** Words that mean something else where an id may stand. */
const taken = new Set(['ground', 'block', 'engine', 'key', 'jumper', 'between', 'after', 'release', 'off', 'on']);

export function isIdForm(id: string): boolean {
  return idForm.test(id) && id.length <= 60;
}

/** Whether an id can be one; told when not. */
export function checkId(id: string, at: Span, tell: Tell): boolean {
  const why = 'faults, findings and wires could not name it';
  if (taken.has(id)) {
    tell(at, {
      code: 'id-taken',
      what: `\`${id}\` has a meaning of its own and cannot be an id`,
      why,
      mend: ['ids are a letter for the sort and a number, such as `F3`'],
    });
    return false;
  }
  if (isIdForm(id)) return true;
  tell(at, {
    code: 'id-form',
    what: id === '' ? 'an id is empty' : `\`${id}\` cannot be an id`,
    why,
    mend: ["ids are letters and digits, with `_`, `-`, `/` or `'` inside; up to 60 of them"],
  });
  return false;
}
