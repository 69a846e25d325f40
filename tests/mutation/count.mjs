/** Ended by no test: no end within the limit, a worker that broke or ran out of memory. Once they were kept as killed, without the test. */
export const isBrokenOff = (m) => m.status === 'broken off' || (m.status === 'killed' && !m.by);

/** What no test reaches counts as unnoticed; what was broken off counts as neither, since a busy machine does that too. */
export function countOf(mutants) {
  return {
    killed: mutants.filter((m) => m.status === 'killed' && !isBrokenOff(m)).length,
    survived: mutants.filter((m) => m.status === 'survived' || m.status === 'unreached').length,
    broken: mutants.filter(isBrokenOff).length,
  };
}

export function apart(broken) {
  return broken === 0 ? '' : ` (besides ${broken} broken off: no end, or no memory)`;
}
