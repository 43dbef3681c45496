/** ln(n!) for a whole n: summed while that is short, then Stirling's series, which is exact to some 12 digits there. */
export function logFactorial(n: number): number {
  if (n < 16) {
    let sum = 0;
    for (let k = 2; k <= n; k++) sum += Math.log(k);
    return sum;
  }
  const x = n + 1;
  const square = x * x;
  const series = (1 / 12 - (1 / 360 - (1 / 1260 - 1 / (1680 * square)) / square) / square) / x;
  return (x - 0.5) * Math.log(x) - x + 0.5 * Math.log(2 * Math.PI) + series;
}

/** Terms this much smaller than the first change nothing. */
const NEGLIGIBLE = 1e-17;

/** A first term and those after it, each so many times the one before. */
function sumTerms(logFirst: number, ratioAfter: (step: number) => number): number {
  let term = 1;
  let sum = 0;
  for (let step = 0; term > NEGLIGIBLE * Math.max(1, sum); step++) {
    sum += term;
    term *= ratioAfter(step);
  }
  return Math.exp(logFirst) * sum;
}

/**
 * Probability that at least `k` of `n` independent trials succeed, each with probability `p`.
 *
 * The shorter of the two tails is summed, so that small probabilities keep their digits.
 *
 * @param k - 1 to n
 * @param p - above 0 and below 1
 */
export function binomialAtLeast(k: number, n: number, p: number): number {
  const odds = p / (1 - p);
  const logTerm = (j: number): number =>
    logFactorial(n) - logFactorial(j) - logFactorial(n - j) + j * Math.log(p) + (n - j) * Math.log1p(-p);
  if (k > n * p) return sumTerms(logTerm(k), (step) => ((n - k - step) / (k + step + 1)) * odds);
  const j = k - 1;
  return 1 - sumTerms(logTerm(j), (step) => (j - step) / (n - j + step + 1) / odds);
}

/**
 * Probability that a Poisson count of a mean is at most `k`.
 *
 * @param mean - above 0
 */
export function poissonAtMost(k: number, mean: number): number {
  const logTerm = (j: number): number => j * Math.log(mean) - mean - logFactorial(j);
  if (k < mean) return sumTerms(logTerm(k), (step) => (k - step) / mean);
  return 1 - sumTerms(logTerm(k + 1), (step) => mean / (k + 2 + step));
}
