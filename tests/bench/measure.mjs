/**
 * One measured row. `aim` is words (`<= 5`, `>= 20`), read here so that a row cannot call itself met.
 *
 * @param value  a number, or null where the comparison could not be made
 */
export function row(id, what, value, unit = '', aim = undefined) {
  const [, sense, limit] = /^(<=|>=) (.+)$/.exec(aim ?? '') ?? [];
  const met = value === null || sense === undefined ? null : sense === '<=' ? value <= Number(limit) : value >= Number(limit);
  return { id, what, value, unit, aim: aim ?? null, met };
}

/**
 * Milliseconds of one call: the least median of a few series, each of which lasts long enough for the clock. The least,
 * because whatever else the machine does only ever adds.
 *
 * @param call     what is measured; gets a running number, so that two calls need not be the same
 * @param least_ms how long one series lasts at least
 */
export function milliseconds(call, { least_ms = 60, series = 5, warm_ms = 100 } = {}) {
  let k = 0;
  for (const end = performance.now() + warm_ms; performance.now() < end; ) call(k++);
  let best = Number.POSITIVE_INFINITY;
  for (let s = 0; s < series; s++) {
    const times = [];
    for (const end = performance.now() + least_ms; performance.now() < end || times.length < 3; ) {
      const begin = performance.now();
      call(k++);
      times.push(performance.now() - begin);
    }
    best = Math.min(best, median(times));
  }
  return best;
}

/** For calls of microseconds: as `milliseconds`, a hundred calls at a time. */
export function microCall(call, options) {
  let k = 0;
  return (
    milliseconds(() => {
      for (let i = 0; i < 100; i++) call(k++);
    }, options) / 100
  );
}

export function median(list) {
  const sorted = [...list].sort((a, b) => a - b);
  return sorted[sorted.length >> 1];
}

/** Exponent b of value ~ size^b by least squares on the logarithms. */
export function growth(points) {
  const logs = points.map(([size, value]) => [Math.log(size), Math.log(value)]);
  const mean = (k) => logs.reduce((sum, p) => sum + p[k], 0) / logs.length;
  const [mx, my] = [mean(0), mean(1)];
  return logs.reduce((s, [x, y]) => s + (x - mx) * (y - my), 0) / logs.reduce((s, [x]) => s + (x - mx) ** 2, 0);
}
