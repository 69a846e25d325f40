import { createHash } from 'node:crypto';

/** Ended by no test: no end within the limit, a worker that broke or ran out of memory. Once they were kept as killed, without the test. */
export const isBrokenOff = (m) => m.status === 'broken off' || (m.status === 'killed' && !m.by);

/** What no test reaches counts as unnoticed; what was broken off counts as neither, since a busy machine does that too. */
export function countOf(mutants) {
  return {
    killed: mutants.filter((m) => m.status === 'killed' && !isBrokenOff(m)).length,
    survived: mutants.filter(isUnnoticed).length,
    broken: mutants.filter(isBrokenOff).length,
  };
}

export const isUnnoticed = (m) => m.status === 'survived' || m.status === 'unreached';

export function percent(killed, survived) {
  return killed + survived === 0 ? '   -  ' : `${((100 * killed) / (killed + survived)).toFixed(1).padStart(5)}%`;
}

/** The same of those alone that alter something to be seen; nothing where none is known that does not. */
export function seen({ killed, survived, explained, all }) {
  if (explained === 0) return '';
  const left = { killed, survived: survived - explained };
  return `; but for ${explained} that alter nothing to be seen${percent(left.killed, left.survived).replace(/^ */, ' ')}${likely({ ...left, all })}`;
}

export function apart(broken) {
  return broken === 0 ? '' : ` (besides ${broken} broken off: no end, or no memory)`;
}

/** Where the score of all changes is likely to be when only some were tried, by Wilson's 95 % interval (E. B. Wilson 1927, from memory). */
export function likely({ killed, survived, all }) {
  const tried = killed + survived;
  if (tried === 0 || tried >= all) return '';
  const z = 1.96;
  const share = killed / tried;
  const middle = share + z ** 2 / (2 * tried);
  const width = z * Math.sqrt((share * (1 - share)) / tried + (z / (2 * tried)) ** 2);
  const at = (sign) => Math.round((100 * (middle + sign * width)) / (1 + z ** 2 / tried));
  return `, of ${all}: ${at(-1)} to ${at(1)} % likely`;
}

/**
 * Whether a change belongs to the share (0 to 1) that is tried: by what it does, so that it is the same one every time. Tests that were
 * written after reading what one draw left unnoticed are measured by another, which no test was written for.
 */
export function isDrawn(file, { at, kind, after }, share, draw = '') {
  return createHash('sha256').update(`${draw}${file} ${at} ${kind} ${after}`).digest().readUInt32BE(0) / 2 ** 32 < share;
}
