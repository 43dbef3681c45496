/**
 * Order two paths as a walk through their folders meets them: names within a folder by code unit, which is how the `check`
 * command reads folders. The order matters: what a cut read lacks is told by the last good one before it.
 *
 * @returns below 0 when `a` comes first, above 0 when `b` does, 0 for equal paths
 */
export function comparePaths(a: string, b: string): number {
  const left = a.split('/');
  const right = b.split('/');
  for (let i = 0; i < Math.min(left.length, right.length); i++) {
    if (left[i]! < right[i]!) return -1;
    if (left[i]! > right[i]!) return 1;
  }
  return left.length - right.length;
}
