/** Neighbours of one ground point that have more tracks of others than this between them get a bar each: a line right across the drawing would be hard to follow. */
const mostForeign = 4;

/** Columns of one ground point in groups that stand near each other, from left to right. */
export function barGroups(columns: readonly number[]): readonly (readonly number[])[] {
  const groups: number[][] = [];
  for (const column of [...columns].sort((a, b) => a - b)) {
    const last = groups.at(-1);
    if (last && column - last.at(-1)! <= mostForeign + 1) last.push(column);
    else groups.push([column]);
  }
  return groups;
}
